#include "interpreter/compile.hpp"

#include <algorithm>

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
        {.code = "edition-altered",
         .severity = Severity::warning,
         .message = "This is not the edition as it went out: something in it was changed.",
         .span = edition.digest_span,
         .remedy = "Take it from its maker again; or, where the change is yours, leave the digest "
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
    findings.push_back({.code = "shade-unexplained",
                        .message = lost->name + " can't be made as it is written, and nothing "
                                                "tells why: a fault of levigate, not of the file.",
                        .span = lost->span,
                        .remedy = "Don't go by what comes of it, and report the file."});
}

Compiled compile(const World& world, const std::string& path, Library library) {
    Compiled out;
    Loaded loaded = load(world, path, out.sources, out.names, library);
    out.findings = std::move(loaded.findings);
    out.unreadable = loaded.unreadable;
    if (out.unreadable) return out;
    if (loaded.newer) {
        // What the rest means, and whether it is wrong, is for those to say who know the version.
        std::erase_if(out.findings,
                      [](const Finding& one) { return one.code != "language-newer"; });
        return out;
    }
    auto resolved = resolve(out.sources, out.names, loaded.files, loaded.lost);
    out.formulary = std::move(resolved.value);
    out.files = std::move(loaded.files);
    for (Finding& finding : resolved.findings) out.findings.push_back(std::move(finding));
    check_digest(out);
    never_in_silence(out.formulary, out.findings);
    sort_findings(out.findings);
    return out;
}

Outcome<std::optional<BatchSize>> read_size(Compiled& compiled, std::string_view text,
                                            std::string_view option) {
    const SourceId source = compiled.sources.add({std::string(option), std::string(text), false});
    return resolve_size(compiled.sources, source, compiled.names, compiled.files,
                        compiled.formulary);
}

Outcome<std::vector<Pour>> read_pours(Compiled& compiled, std::string_view text,
                                      std::string_view option) {
    const SourceId source = compiled.sources.add({std::string(option), std::string(text), false});
    return resolve_pours(compiled.sources, source, compiled.names, compiled.files,
                         compiled.formulary);
}

Outcome<std::vector<Record>> read_records(Compiled& compiled, const std::string& path,
                                          std::string text) {
    const SourceId source = compiled.sources.add({path, std::move(text), false});
    return resolve_records(compiled.sources, compiled.names, compiled.files, compiled.formulary,
                           read(compiled.sources, source, compiled.names));
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
        out.findings.push_back({.code = "quantity-kind",
                                .message = "A weight or a volume is due here.",
                                .span = size.value->span,
                                .remedy = "15 g"});
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
    out.findings.push_back({.code = "quantity-kind",
                            .message = "A weight is due here.",
                            .span = {static_cast<SourceId>(compiled.sources.size() - 1), 0,
                                     static_cast<std::uint32_t>(text.size())},
                            .remedy = "15 g"});
    return out;
}

}  // namespace levigate
