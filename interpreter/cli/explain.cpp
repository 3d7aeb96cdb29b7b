// levigate explain: what a finding means, with one wrong example and one right.
#include <algorithm>

#include <fmt/format.h>

#include "interpreter/cli/report.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/embedded.hpp"
#include "interpreter/query/near.hpp"

namespace levigate::cli {

extern const Verb explain_verb;

namespace {

constexpr Option explain_options[] = {
    {"--as", "FORM", "how the list is written; text where nothing is said", "text|markdown"},
};

/// The first sentence behind the title line.
std::string first_sentence(std::string_view page) {
    page.remove_prefix(std::min(page.find('\n'), page.size()));
    page.remove_prefix(std::min(page.find_first_not_of("\r\n "), page.size()));
    std::string out(page.substr(0, page.find("\n\n")));
    std::replace(out.begin(), out.end(), '\n', ' ');
    if (std::size_t end = out.find(". "); end != std::string::npos) out.resize(end + 1);
    out.erase(out.find_last_not_of(' ') + 1);
    return out;
}

std::string list_of_pages(const Arguments& arguments) {
    document::Table table;
    table.columns = {{"code"}, {"what it means"}};
    for (const EmbeddedPage& page : explanation_pages())
        table.rows.push_back({std::string(page.name), first_sentence(page.text)});
    std::string out;
    append_document(arguments, out, {std::move(table)});
    return out;
}

int explain(const Arguments& arguments) {
    std::string out;
    if (arguments.operands.empty()) {
        out = list_of_pages(arguments);
    } else {
        const std::string& code = arguments.operands[0];
        std::vector<std::string_view> codes;
        for (const EmbeddedPage& page : explanation_pages()) {
            codes.push_back(page.name);
            if (page.name == code) out = page.text;
        }
        if (out.empty()) {
            std::string_view near = nearest(code, codes);
            std::string hint = near.empty() ? "`levigate explain` lists them."
                                            : fmt::format("Did you mean `{}`?", near);
            return stop(explain_verb, arguments, command_wrong, Code::command_line,
                        fmt::format("There is no finding called `{}`. {}", code, hint));
        }
    }
    Output output = Output::open({}, {});
    if (output.finish(out)) return done;
    say_problem(output);
    return file_trouble;
}

}  // namespace

constexpr Verb explain_verb = {"explain",
                               "[CODE]",
                               0,
                               1,
                               "what a finding means, with an example; without a code, all of them",
                               explain_options,
                               "  levigate explain total-off\n"
                               "  levigate explain\n",
                               "",
                               explain};

}  // namespace levigate::cli
