#include "interpreter/query/trial.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace levigate::mending {
namespace {

constexpr SourceId no_such = no_source;

/// The world in which the named files have these texts, whoever uses them.
World with_texts(const Desk& desk, const std::vector<std::string>& texts) {
    const auto put = [&desk, texts](FileText file) {
        const auto named = std::find(desk.identities.begin(), desk.identities.end(), file.identity);
        if (named != desk.identities.end() && std::holds_alternative<std::string>(file.text))
            file.text = texts[static_cast<std::size_t>(named - desk.identities.begin())];
        return file;
    };
    World out;
    out.open = [&desk, put](const std::string& path) { return put(desk.world.open(path)); };
    out.open_beside = [&desk, put](const std::string& root, const std::string& from,
                                   const std::string& relative, std::string& shown_path) {
        return put(desk.world.open_beside(root, from, relative, shown_path));
    };
    return out;
}

/// The source of `by` that is the named file.
SourceId source_of(const Desk& desk, const CheckedFile& by, std::size_t file) {
    for (SourceId id = 0; id < by.compiled.sources.size(); ++id)
        if (desk.file_of(by, id) == file) return id;
    return no_such;
}

std::uint32_t line_of(const CheckedFile& by, Span span) {
    return by.compiled.sources.position(span).line;
}

std::int64_t line_ends(std::string_view text) { return std::count(text.begin(), text.end(), '\n'); }

/// Where a line of the old text is in the new one.
std::int64_t moved(const Desk& desk, const std::vector<Offer>& set, std::size_t file,
                   std::uint32_t line) {
    std::int64_t to = line;
    for (const Offer& offer : set) {
        if (offer.file != file || line_of(desk.state[offer.by], offer.fix.span) >= line) continue;
        const Fix made = as_made(desk.text(file), offer.fix);
        const std::string_view gone = std::string_view(desk.text(file))
                                          .substr(made.span.begin, made.span.end - made.span.begin);
        to += line_ends(made.text) - line_ends(gone);
    }
    return to;
}

/// True if all that is said of the line now was said before and is not what was to go.
bool line_kept(const Desk& desk, const std::vector<Offer>& set, std::size_t file,
               std::uint32_t line, std::size_t by, const std::optional<CheckedFile>& changed,
               std::string& said) {
    if (!changed) return true;
    const CheckedFile& after = *changed;
    const CheckedFile& before = desk.state[by];
    const SourceId was = source_of(desk, before, file), is = source_of(desk, after, file);
    if (was == no_such || is == no_such) return true;
    std::multiset<Code> allowed;
    for (const Finding& one : before.findings)
        if (one.span.source == was && line_of(before, one.span) == line) allowed.insert(one.code);
    for (const Offer& offer : set) {
        if (offer.file != file || line_of(desk.state[offer.by], offer.finding->span) != line)
            continue;
        const auto gone = allowed.find(offer.finding->code);
        if (gone != allowed.end()) allowed.erase(gone);
    }
    const std::int64_t now = moved(desk, set, file, line);
    for (const Finding& one : after.findings) {
        if (one.span.source != is || line_of(after, one.span) != now) continue;
        if (one.code == Code::library_hidden) continue;  // what the line is, not a fault in it
        const auto known = allowed.find(one.code);
        if (known == allowed.end()) {
            said = one.message;
            return false;
        }
        allowed.erase(known);
    }
    return true;
}

}  // namespace

Desk::Desk(const World& world_read, const std::vector<std::string>& paths_named,
           const std::vector<std::string>& regions_asked)
    : world(world_read), regions(regions_asked), paths(paths_named) {
    for (const std::string& path : paths) {
        identities.push_back(world.open(path).identity);
        state.push_back(checked(world, path, regions));
    }
}

std::size_t Desk::file_of(const CheckedFile& by, SourceId source) const {
    if (source >= by.compiled.sources.size() || by.compiled.sources[source].library)
        return paths.size();
    const std::string& name = by.compiled.sources[source].name;
    const auto path = std::find(paths.begin(), paths.end(), name);
    const std::string identity = path != paths.end()
                                     ? identities[static_cast<std::size_t>(path - paths.begin())]
                                     : world.open(name).identity;
    const auto same = std::find(identities.begin(), identities.end(), identity);
    return static_cast<std::size_t>(same - identities.begin());
}

std::vector<Offer> offers(const Desk& desk) {
    std::vector<Offer> all;
    for (std::size_t by = 0; by < desk.paths.size(); ++by)
        for (const Finding& finding : desk.state[by].findings)
            for (const Fix& fix : finding.fixes)
                if (fix.certain)
                    if (const std::size_t file = desk.file_of(desk.state[by], fix.span.source);
                        file < desk.paths.size())
                        all.push_back({by, &finding, file, fix});
    std::stable_sort(all.begin(), all.end(), [](const Offer& a, const Offer& b) {
        return std::pair(a.file, a.fix.span.begin) < std::pair(b.file, b.fix.span.begin);
    });
    std::vector<Offer> apart;
    for (const Offer& offer : all) {
        const bool over = !apart.empty() && apart.back().file == offer.file &&
                          (offer.fix.span.begin < apart.back().fix.span.end ||
                           offer.fix.span.begin == apart.back().fix.span.begin);
        if (!over) apart.push_back(offer);
    }
    return apart;
}

States tried(const Desk& desk, const std::vector<Offer>& set) {
    std::vector<std::string> texts;
    std::vector<bool> changed(desk.paths.size());
    for (std::size_t file = 0; file < desk.paths.size(); ++file) {
        std::vector<Fix> fixes;
        for (const Offer& offer : set)
            if (offer.file == file) fixes.push_back(offer.fix);
        changed[file] = !fixes.empty();
        const bool read = !desk.state[file].compiled.unreadable;
        texts.push_back(read ? with_fixes(desk.text(file), std::move(fixes)) : std::string());
    }
    const World world = with_texts(desk, texts);
    States out;
    for (std::size_t by = 0; by < desk.paths.size(); ++by) {
        const CheckedFile& before = desk.state[by];
        bool affected = false;
        for (SourceId id = 0; id < before.compiled.sources.size() && !affected; ++id) {
            const std::size_t file = desk.file_of(before, id);
            affected = file < desk.paths.size() && changed[file];
        }
        out.emplace_back();
        if (affected) out.back() = checked(world, desk.paths[by], desk.regions);
    }
    return out;
}

bool keeps_promise(const Desk& desk, const std::vector<Offer>& set, const Offer& offer,
                   const States& after, std::string& said) {
    const CheckedFile& before = desk.state[offer.by];
    const std::uint32_t line = line_of(before, offer.fix.span);
    const bool line_gone =
        as_made(desk.text(offer.file), offer.fix).span.end > offer.fix.span.end ||
        as_made(desk.text(offer.file), offer.fix).span.begin < offer.fix.span.begin;
    for (const std::size_t by : {offer.by, offer.file})
        if (!line_gone && !line_kept(desk, set, offer.file, line, by, after[by], said))
            return false;
    if (offer.finding->span.source != offer.fix.span.source) return true;
    const std::uint32_t about = line_of(before, offer.finding->span);
    return about == line ||
           line_kept(desk, set, offer.file, about, offer.by, after[offer.by], said);
}

}  // namespace levigate::mending
