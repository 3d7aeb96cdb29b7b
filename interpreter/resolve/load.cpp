#include "interpreter/resolve/load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "grammar/near.hpp"
#include "grammar/read.hpp"
#include "grammar/words.hpp"
#include "interpreter/embedded.hpp"

namespace levigate {

namespace {

/// Pages that are in scope without a `use`.
constexpr std::array always = {"measures", "containers", "finishes"};
/// Every page whose name begins so holds the rules of a region: one more is one more page.
constexpr std::string_view rules_of = "rules ";
/// A person's files, however they use each other: more than a folder of shade files ever has.
constexpr std::size_t most_files = 500;
constexpr std::size_t none_new = static_cast<std::size_t>(-1);

struct Loader {
    const World& world;
    std::string root;
    Sources& sources;
    Names& names;
    Loaded out{};
    std::vector<std::string> identities{};  ///< of the person's files, in the order of `files`
    std::vector<std::string> shown{};
    std::vector<std::string> pages{};
    std::vector<std::size_t> open{};  ///< the files on the way down, to tell a loop
    bool full = false;                ///< there are more files than there may be, said
};

std::string_view why_not(Unreadable why) {
    switch (why) {
        case Unreadable::missing: return "There is no such file.";
        case Unreadable::directory: return "That is a folder, not a file.";
        case Unreadable::denied: return "The file may not be read.";
        case Unreadable::outside: return "The file lies outside the folder of the first one.";
        case Unreadable::too_big: return "The file is larger than any shade file.";
        case Unreadable::changing: return "The file changes while it is read.";
        case Unreadable::failed: return "The file could not be read.";
    }
    return "";
}

void use_page(Loader& loader, const tree::Block& block);
std::size_t use_file(Loader& loader, std::size_t from, const tree::Block& block);

std::size_t add_file(Loader& loader, std::string shown, std::string text, bool library, bool own) {
    const SourceId id = loader.sources.add({std::move(shown), std::move(text), library});
    auto read_file = read(loader.sources, id, loader.names);
    for (Finding& finding : read_file.findings) loader.out.findings.push_back(std::move(finding));
    loader.out.files.push_back({std::move(read_file.value), library, own});
    return loader.out.files.size() - 1;
}

void check_version(Loader& loader, const tree::File& file, const tree::Block& block) {
    if (block.value == tree::no_expr) return;
    const Span number = file.exprs[block.value].number;
    if (loader.sources.text(number) == "1") return;
    loader.out.newer = true;
    loader.out.findings.push_back(
        {.code = Code::language_newer,
         .message = fmt::format("This file is written in version {} of the language, and this "
                                "tool knows version 1.",
                                shown(loader.sources.text(number))),
         .span = number,
         .advice = "Take a newer levigate, or write `language 1` if that is what it is."});
}

/// Depth first, each file where it is used first, with a stack of its own.
void follow_uses(Loader& loader) {
    std::vector<std::size_t> next{0};  // block by block, of the files in `open`
    loader.open.push_back(0);
    while (!loader.open.empty()) {
        // By index: files and blocks move while more of them are read.
        const std::size_t index = loader.open.back(), i = next.back()++;
        if (i >= loader.out.files[index].tree.blocks.size()) {
            loader.open.pop_back();
            next.pop_back();
            continue;
        }
        const tree::Block block = loader.out.files[index].tree.blocks[i];
        if (block.heading == Heading::language)
            check_version(loader, loader.out.files[index].tree, block);
        if (block.heading != Heading::use || !block.name) continue;
        if (!block.path) {
            use_page(loader, block);
            continue;
        }
        const std::size_t fresh = use_file(loader, index, block);
        if (fresh == none_new) continue;
        loader.open.push_back(fresh);
        next.push_back(0);
    }
}

std::string page_names() {
    std::string all;
    for (const EmbeddedPage& page : library_pages()) {
        if (std::find(always.begin(), always.end(), page.name) != always.end()) continue;
        all += fmt::format("{}`use {}`", all.empty() ? "" : " or ", page.name);
    }
    return all;
}

bool add_page(Loader& loader, std::string_view name) {
    for (const EmbeddedPage& page : library_pages()) {
        if (page.name != name) continue;
        if (std::find(loader.pages.begin(), loader.pages.end(), name) != loader.pages.end())
            return true;
        loader.pages.emplace_back(name);
        add_file(loader, fmt::format("library: {}", name), std::string(page.text), true, false);
        return true;
    }
    return false;
}

/// True where there is such a file beside the one under way, which nothing has used yet.
bool can_use(const Loader& loader, std::string_view path) {
    std::string shown_path;
    const FileText file = loader.world.open_beside(loader.root, loader.shown[loader.open.back()],
                                                   std::string(path), shown_path);
    const auto& known = loader.identities;
    return std::holds_alternative<std::string>(file.text) &&
           std::find(known.begin(), known.end(), file.identity) == known.end();
}

void use_page(Loader& loader, const tree::Block& block) {
    const std::string_view name = loader.names.folded(block.name.sym);
    if (add_page(loader, name)) return;
    const std::string_view written = loader.sources.text(block.name.span);
    Finding finding{.code = Code::page_unknown,
                    .message = fmt::format("The library has no page called {}.", shown(written)),
                    .span = block.name.span,
                    .example = page_names()};
    Nearest nearest(name);
    for (std::size_t i = 0; i < library_pages().size(); ++i)
        nearest.offer(library_pages()[i].name, i);
    for (const std::size_t i : nearest.best())
        finding.fixes.push_back(
            possible_fix(block.span, fmt::format("use {}", library_pages()[i].name)));
    if (name.size() > 6 && name.ends_with(".shade"))
        finding.fixes = {
            {block.span, fmt::format("use \"{}\"", written), can_use(loader, written)}};
    loader.out.lost = true;
    loader.out.findings.push_back(std::move(finding));
}

void report_loop(Loader& loader, const tree::Block& block, std::size_t reached) {
    std::string way;
    bool on = false;
    for (const std::size_t open : loader.open) {
        on = on || open == reached;
        if (on) way += fmt::format("{} uses ", loader.shown[open]);
    }
    loader.out.findings.push_back(
        {.code = Code::use_loop,
         .message =
             fmt::format("These files use each other in a ring: {}{}.", way, loader.shown[reached]),
         .span = block.name.span,
         .advice = "Take one of the `use` lines out; what both files need can stand in a third."});
}

/// The place of a file that wasn't read before; none_new where there is none.
std::size_t use_file(Loader& loader, std::size_t from, const tree::Block& block) {
    const std::string relative(loader.sources.text(block.name.span));
    std::string shown_path;
    FileText file = loader.world.open_beside(loader.root, loader.shown[from], relative, shown_path);
    const auto known = std::find(loader.identities.begin(), loader.identities.end(), file.identity);
    if (known != loader.identities.end() && !file.identity.empty()) {
        const auto reached = static_cast<std::size_t>(known - loader.identities.begin());
        if (std::find(loader.open.begin(), loader.open.end(), reached) != loader.open.end())
            report_loop(loader, block, reached);
        return none_new;
    }
    if (const auto* why = std::get_if<Unreadable>(&file.text)) {
        loader.out.lost = true;
        const bool outside = *why == Unreadable::outside;
        loader.out.findings.push_back(
            {.code = outside ? Code::use_outside : Code::use_missing,
             .message = fmt::format("{} can't be used. {}", shown(relative), why_not(*why)),
             .span = block.name.span,
             .advice = outside ? "Put a copy of it beside the file that uses it."
                               : "Write the path from the folder of this file."});
        return none_new;
    }
    if (loader.identities.size() >= most_files) {
        loader.out.lost = true;
        if (!loader.full)
            loader.out.findings.push_back(
                {.code = Code::nesting_too_deep,
                 .message = fmt::format("More than {} files use each other.", most_files),
                 .span = block.name.span,
                 .advice = "Put what belongs together into one file."});
        loader.full = true;
        return none_new;
    }
    // Person's files come first in the table, so that indices of identities and files agree.
    loader.identities.push_back(file.identity);
    loader.shown.push_back(shown_path);
    const std::size_t index =
        add_file(loader, shown_path, std::move(std::get<std::string>(file.text)), false, false);
    if (index + 1 != loader.identities.size()) {
        // A library page was read before: keep them behind.
        auto& files = loader.out.files;
        std::rotate(files.begin() + static_cast<std::ptrdiff_t>(loader.identities.size() - 1),
                    files.end() - 1, files.end());
    }
    return loader.identities.size() - 1;
}

}  // namespace

Loaded load(const World& world, const std::string& path, Sources& sources, Names& names,
            Library library) {
    Loader loader{world, path, sources, names};
    FileText file = world.open(path);
    if (const auto* why = std::get_if<Unreadable>(&file.text)) {
        loader.out.unreadable = *why;
        return std::move(loader.out);
    }
    loader.identities.push_back(file.identity);
    loader.shown.push_back(path);
    add_file(loader, path, std::move(std::get<std::string>(file.text)), false, true);
    loader.out.of_reading = loader.out.findings.size();
    follow_uses(loader);
    for (const char* page : always) add_page(loader, page);
    if (library == Library::with_rules)
        for (const EmbeddedPage& page : library_pages())
            if (page.name.starts_with(rules_of)) add_page(loader, page.name);
    return std::move(loader.out);
}

}  // namespace levigate
