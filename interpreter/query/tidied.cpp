#include "interpreter/query/tidied.hpp"

#include <algorithm>

#include "interpreter/resolve/load.hpp"
#include "interpreter/resolve/resolve.hpp"

namespace levigate {

namespace {

/// Only what a measure is called is asked here, and that stands in headings.
std::vector<LoadedFile> measures_alone(const std::vector<LoadedFile>& files) {
    std::vector<LoadedFile> out;
    for (const LoadedFile& file : files) {
        out.push_back({{}, file.library, file.own});
        out.back().tree.source = file.tree.source;
        for (const tree::Block& block : file.tree.blocks) {
            if (block.heading != Heading::unit && block.heading != Heading::container) continue;
            tree::Block bare;
            bare.heading = block.heading;
            bare.name = block.name;
            out.back().tree.blocks.push_back(std::move(bare));
        }
    }
    return out;
}

}  // namespace

TidiedFile tidied(const World& world, const std::string& path) {
    TidiedFile out;
    Names names;
    Loaded loaded = load(world, path, out.sources, names);
    out.unreadable = loaded.unreadable;
    if (out.unreadable) return out;
    const SourceId own = loaded.files.front().tree.source;
    const auto newer = std::ranges::find_if(loaded.findings, [&](const Finding& one) {
        return one.code == Code::language_newer && one.span.source == own;
    });
    if (newer != loaded.findings.end()) {
        out.tidied.text = out.before();
        out.tidied.findings.push_back(*newer);
        return out;
    }
    const std::vector<LoadedFile> measures = measures_alone(loaded.files);
    loaded.findings.resize(loaded.of_reading);
    Outcome<tree::File> file{std::move(loaded.files.front().tree), std::move(loaded.findings)};
    loaded.files.clear();
    with_measures(out.sources, names, measures, [&](const MeasureSplit& split) {
        out.tidied = tidy(out.sources, std::move(file), names, split);
    });
    return out;
}

}  // namespace levigate
