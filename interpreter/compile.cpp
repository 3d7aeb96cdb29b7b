#include "interpreter/compile.hpp"

#include <algorithm>

#include "grammar/lines.hpp"
#include "grammar/read.hpp"
#include "interpreter/resolve/load.hpp"
#include "interpreter/resolve/resolve.hpp"
#include "interpreter/share/digest.hpp"

namespace levigate {

namespace {

/// In the order of the files, then of the lines: as a person mends them.
void sort_findings(Findings& findings) {
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        if (a.span.source != b.span.source) return a.span.source < b.span.source;
        return a.span.begin < b.span.begin;
    });
}

/// Whether FILE is still the edition that `share` wrote.
void check_digest(Compiled& compiled) {
    if (!compiled.formulary.edition || compiled.formulary.edition->digest.empty()) return;
    Edition& edition = *compiled.formulary.edition;
    edition.unaltered =
        edition_digest(compiled.sources[compiled.formulary.file].text) == edition.digest;
    if (*edition.unaltered) return;
    compiled.findings.push_back(
        {.code = Code::edition_altered,
         .message = "This is not the edition as it went out: something in it was changed.",
         .span = edition.digest_span,
         .advice = "Take it from its maker again; or, where the change is yours, leave the digest "
                   "out."});
}

/// True where all that the shade names can be made.
bool whole(const Formulary& formulary, const Shade& shade) {
    if (shade.broken) return false;
    for (const Version& version : shade.versions)
        if (version.broken) return false;
    for (const Batch& batch : shade.batches)
        if (batch.size.broken) return false;
    for (const ShadeFinish& finish : shade.finishes)
        if (finish.finishing == nothing || formulary.finishings[finish.finishing].broken)
            return false;
    return true;
}

}  // namespace

void never_in_silence(const Formulary& formulary, Findings& findings) {
    if (any_error(findings)) return;
    const auto& shades = formulary.shades;
    const auto lost = std::find_if(shades.begin(), shades.end(),
                                   [&](const Shade& shade) { return !whole(formulary, shade); });
    if (lost == shades.end()) return;
    findings.push_back({.code = Code::shade_unexplained,
                        .message = lost->name + " can't be made as it is written, and nothing "
                                                "tells why: a fault of levigate, not of the file.",
                        .span = lost->span,
                        .advice = "Don't go by what comes of it, and report the file."});
}

Compiled compile(const World& world, const std::string& path, Library library) {
    Compiled out;
    Loaded loaded = load(world, path, out.sources, out.names, library);
    out.findings = std::move(loaded.findings);
    out.unreadable = loaded.unreadable;
    out.sources.isolate(out.names.right_to_left());
    if (out.unreadable) return out;
    if (loaded.newer) {
        // What the rest means, and whether it is wrong, is for those to say who know the version.
        std::erase_if(out.findings,
                      [](const Finding& one) { return one.code != Code::language_newer; });
        return out;
    }
    auto resolved = resolve(out.sources, out.names, loaded.files, loaded.lost);
    out.formulary = std::move(resolved.value);
    out.files = std::move(loaded.files);
    for (Finding& finding : resolved.findings) out.findings.push_back(std::move(finding));
    out.sources.isolate(out.names.right_to_left());  // also of families
    if (out.formulary.edition) out.sources.isolate(out.formulary.edition->title);
    check_digest(out);
    never_in_silence(out.formulary, out.findings);
    sort_findings(out.findings);
    return out;
}

Outcome<std::optional<BatchSize>> read_size(Compiled& compiled, std::string_view text,
                                            std::string_view option) {
    const SourceId source = compiled.sources.add({std::string(option), std::string(text), false});
    std::string folded;
    fold_name(text, folded);
    if (folded.find("sum of weights") != folded.npos || folded.find("sum of the") != folded.npos)
        return {{},
                {{.code = Code::quantity_bare,
                  .message = "`sum of weights` belongs to one shade: write it into a `batch` line.",
                  .span = {source, 0, static_cast<std::uint32_t>(text.size())},
                  .example = "6 g"}}};
    return resolve_size(compiled.sources, source, compiled.names, compiled.files);
}

namespace {

/// Where the measure that begins at `begin` ends: at a comma, but at none within quotes.
std::size_t end_of_spoon(std::string_view text, std::size_t begin) {
    bool quoted = false;
    for (std::size_t at = begin; at < text.size(); ++at) {
        if (quote_at(text, static_cast<std::uint32_t>(at)) > 0) quoted = !quoted;
        if (text[at] == ',' && !quoted) return at;
    }
    return text.size();
}

/// A number, a bracket or a sign begins a quantity; all else is a measure's name, in quotes or not.
bool begins_quantity(std::string_view text) {
    constexpr std::string_view signs = "0123456789.({-+";
    const auto two = text.substr(0, 2), three = text.substr(0, 3);
    return signs.find(text[0]) != signs.npos || two == "¼" || two == "½" || two == "¾" ||
           three.starts_with("\xE2\x85") || three == "\u2212";
}

}  // namespace

Outcome<Spoons> read_spoons(Compiled& compiled, std::string_view text, std::string_view option) {
    constexpr std::size_t most_spoons = 20;
    Outcome<Spoons> out;
    if (static_cast<std::size_t>(std::count(text.begin(), text.end(), ',')) >= most_spoons) {
        out.findings.push_back({.code = Code::command_line,
                                .message = "These are more than 20 measures; at most 20 can be "
                                           "used at once.",
                                .span = {},
                                .advice = "Name those that you really use."});
        return out;
    }
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t comma = end_of_spoon(text, begin);
        std::string one(text.substr(begin, comma - begin));
        begin = comma + 1;
        // A measure alone is one of it.
        one.erase(0, one.find_first_not_of(" \t"));
        const bool alone = !one.empty() && !begins_quantity(one);
        if (alone) one.insert(0, "1 ");
        const SourceId source = compiled.sources.add({std::string(option), one, false});
        if (one.empty()) {
            out.findings.push_back({.code = Code::quantity_kind,
                                    .message = "A measure is due here, such as 1/4 tsp or drop.",
                                    .span = {source, 0, 0},
                                    .example = "1/4 tsp, 1/8 tsp, drop"});
            continue;
        }
        auto read = resolve_spoon(compiled.sources, source, compiled.names, compiled.files);
        for (Finding& finding : read.findings) {
            // A measure that is nearly called so already has what to write in its place.
            if (finding.fixes.empty()) show_example(finding, "1/4 tsp, 1/8 tsp, drop");
            out.findings.push_back(std::move(finding));
        }
        if (!read.value) continue;
        if (alone) read.value->written.clear();
        out.value.push_back(std::move(*read.value));
    }
    std::stable_sort(out.value.begin(), out.value.end(),
                     [](const Spoon& a, const Spoon& b) { return b.volume < a.volume; });
    const auto twice =
        std::unique(out.value.begin(), out.value.end(),
                    [](const Spoon& a, const Spoon& b) { return a.volume == b.volume; });
    out.value.erase(twice, out.value.end());
    return out;
}

namespace {

/// A dilution's name holds a share, so that it stands in double quotes; the sheet prints it bare,
/// and as printed it may be typed.
std::string quoted_dilutions(const Compiled& compiled, std::string_view text) {
    std::string out(text);
    for (const Dilution& one : compiled.formulary.dilutions) {
        const std::string& name = compiled.formulary.name(one.self);
        for (std::size_t at = out.find(name); at != out.npos; at = out.find(name, at)) {
            if (at == 0 || out[at - 1] != '"') {
                out.insert(at + name.size(), 1, '"');
                out.insert(at, 1, '"');
            }
            at += name.size() + 1;
        }
    }
    return out;
}

}  // namespace

Outcome<std::vector<Pour>> read_pours(Compiled& compiled, std::string_view text,
                                      std::string_view option) {
    const SourceId source =
        compiled.sources.add({std::string(option), quoted_dilutions(compiled, text), false});
    return resolve_pours(compiled.sources, source, compiled.names, compiled.files,
                         compiled.formulary);
}

Outcome<std::vector<Made>> read_made(Compiled& compiled, std::string_view text,
                                     std::string_view option) {
    const SourceId source =
        compiled.sources.add({std::string(option), quoted_dilutions(compiled, text), false});
    return resolve_made(compiled.sources, source, compiled.names, compiled.files,
                        compiled.formulary);
}

Outcome<std::vector<Record>> read_records(Compiled& compiled, const std::string& path,
                                          std::string text) {
    const SourceId source = compiled.sources.add({path, std::move(text), false});
    return resolve_records(compiled.sources, compiled.names, compiled.files, compiled.formulary,
                           read(compiled.sources, source, compiled.names, Reads::records));
}

Outcome<std::optional<std::variant<Mass, Volume>>>
read_bulk(Compiled& compiled, std::string_view text, std::string_view option) {
    auto size = read_size(compiled, text, option);
    Outcome<std::optional<std::variant<Mass, Volume>>> out{std::nullopt, std::move(size.findings)};
    if (!size.value) return out;
    if (as_fraction(size.value->overage).is_zero() && size.value->holdback.index() == 0) {
        if (const auto* mass = std::get_if<Mass>(&size.value->amount)) out.value = *mass;
        if (const auto* volume = std::get_if<Volume>(&size.value->amount)) out.value = *volume;
    }
    if (!out.value)
        out.findings.push_back({.code = Code::quantity_kind,
                                .message = "A weight or a volume is due here.",
                                .span = size.value->span,
                                .example = "15 g"});
    return out;
}

Outcome<std::optional<Mass>> read_mass(Compiled& compiled, std::string_view text,
                                       std::string_view option) {
    auto bulk = read_bulk(compiled, text, option);
    Outcome<std::optional<Mass>> out{std::nullopt, std::move(bulk.findings)};
    if (!bulk.value) return out;
    if (const auto* mass = std::get_if<Mass>(&*bulk.value)) {
        out.value = *mass;
        return out;
    }
    out.findings.push_back({.code = Code::quantity_kind,
                            .message = "A weight is due here.",
                            .span = {static_cast<SourceId>(compiled.sources.size() - 1), 0,
                                     static_cast<std::uint32_t>(text.size())},
                            .example = "15 g"});
    return out;
}

}  // namespace levigate
