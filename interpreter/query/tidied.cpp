#include "interpreter/query/tidied.hpp"

#include <algorithm>

#include "interpreter/resolve/load.hpp"
#include "interpreter/resolve/resolve.hpp"

namespace levigate {

TidiedFile tidied(const World& world, const std::string& path) {
    TidiedFile out;
    Names names;
    const Loaded loaded = load(world, path, out.sources, names);
    out.unreadable = loaded.unreadable;
    if (out.unreadable) return out;
    const SourceId own = loaded.files.front().tree.source;
    out.before = out.sources[own].text;
    out.tidied.text = out.before;
    const auto newer = std::ranges::find_if(loaded.findings, [&](const Finding& one) {
        return one.code == "language-newer" && one.span.source == own;
    });
    if (newer != loaded.findings.end()) {
        out.tidied.findings.push_back(*newer);
        return out;
    }
    with_measures(out.sources, names, loaded.files, [&](const MeasureSplit& split) {
        out.tidied = tidy(out.sources, own, names, split);
    });
    return out;
}

}  // namespace levigate
