#include "tests/mend/promise.hpp"

#include <algorithm>
#include <map>

#include "tests/support/text.hpp"

namespace levigate::testing {

namespace {

/// How often each code is said of a line, counted from 0; `lines` of them.
std::map<std::string, int> said_of(const CheckedFile& file, std::size_t line, std::size_t lines) {
    std::map<std::string, int> out;
    for (const Finding& one : file.findings) {
        if (one.span.source != 0) continue;
        const std::size_t at = file.compiled.sources.position(one.span).line - 1;
        // A heading spelt right may replace one of the library's: that is no fault in it.
        if (one.code == Code::library_hidden) continue;
        if (at >= line && at < line + lines) ++out[std::string(row_of(one.code).name)];
    }
    return out;
}

std::size_t line_ends(std::string_view text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

/// A fix that was put in its place.
struct Tried {
    std::string text, words;
    CheckedFile after;
    std::map<std::string, int> said_before, said_after;  ///< of its lines
    bool line_gone = false;
};

Tried tried(const std::string& path, const CheckedFile& before, const Finding& finding,
            const Fix& fix) {
    const std::string& text = before.compiled.sources[0].text;
    Tried out;
    out.text = with_fixes(text, {fix});
    out.words = path + ", " + std::string(row_of(finding.code).name) + ": \"" + fix.text +
                "\" in place of \"" + std::string(before.compiled.sources.text(fix.span)) +
                "\" gives\n" + out.text + "\nand then ";
    out.after = checked(world_with(path, out.text), path, {});
    const std::size_t line = before.compiled.sources.position(fix.span).line - 1;
    const std::size_t was = 1 + line_ends(before.compiled.sources.text(fix.span));
    out.line_gone = line_ends(out.text) + was - 1 - line_ends(fix.text) < line_ends(text);
    out.said_before = said_of(before, line, was);
    out.said_after = said_of(out.after, line, 1 + line_ends(fix.text));
    return out;
}

}  // namespace

World world_with(const std::string& path, const std::string& text) {
    World world = disk_world();
    world.open = [path, text, disk = world.open](const std::string& asked) {
        FileText file = disk(asked);
        if (asked == path) file.text = text;
        return file;
    };
    return world;
}

std::string broken_promise(const std::string& path, const CheckedFile& before,
                           const Finding& finding, const Fix& fix) {
    Tried out = tried(path, before, finding, fix);
    if (out.line_gone)  // nothing can be said of it; the file as a whole has one finding less
        return out.after.findings.size() < before.findings.size() ? "" : out.words + "no less";
    --out.said_before[std::string(row_of(finding.code).name)];
    for (const auto& [code, count] : out.said_after)
        if (count > out.said_before[code]) return out.words + code;
    return {};
}

std::string of_no_use(const std::string& path, const CheckedFile& before, const Finding& finding,
                      const Fix& fix) {
    Tried out = tried(path, before, finding, fix);
    if (out.line_gone) return {};
    const std::string code(row_of(finding.code).name);
    if (out.said_after[code] < out.said_before[code]) return {};
    for (const auto& [after, count] : out.said_after)
        if (count > 0 && (after.starts_with("line-") || after == "quote-open" ||
                          after == "comma-trailing" || after == "number-malformed"))
            return out.words + after;
    return {};
}

}  // namespace levigate::testing
