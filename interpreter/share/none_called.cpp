// A shade or a family that is to go out, and isn't there.

#include <fmt/format.h>

#include "grammar/near.hpp"
#include "interpreter/share/pick.hpp"

namespace levigate::sharing {

Finding none_called(const Compiled& compiled, const std::string& name, bool in_file) {
    const Formulary& formulary = compiled.formulary;
    std::string folded;
    fold_name(name, folded);
    std::vector<std::string> all;
    Nearest nearest(folded);
    const auto offer = [&](const std::string& one, Sym sym) {
        if (!all.empty() && all.back() == one) return;
        nearest.offer(compiled.names.folded(sym), all.size());
        all.push_back(one);
    };
    for (const Shade& shade : formulary.shades)
        if (shade.own) offer(shade.name, shade.sym);
    for (const Shade& shade : formulary.shades)
        if (shade.own && shade.family.sym != no_name) offer(shade.family.name, shade.family.sym);
    Finding finding{
        Code::choice_none,
        fmt::format("This file has no shade of its own and no family that is called {}.",
                    shown(name)),
        in_file && formulary.edition ? formulary.edition->span : Span{}};
    if (!in_file)
        for (const std::size_t id : nearest.best())
            finding.fixes.push_back(possible_fix(Span{}, all[id]));
    // What stops the command is one line: the name is told in it.
    if (!finding.fixes.empty())
        finding.message += fmt::format(" Did you mean {}?", finding.fixes.front().text);
    if (finding.fixes.empty())
        finding.advice = "What goes out stands in the file itself; what it uses is folded in.";
    return finding;
}

}  // namespace levigate::sharing
