#include "interpreter/share/open.hpp"

#include <algorithm>
#include <map>

#include "grammar/read.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/resolve/resolve.hpp"
#include "interpreter/share/index.hpp"
#include "interpreter/share/tables.hpp"

namespace levigate::sharing {

namespace {

/// Blanks in place of what stays at home, so that all else keeps its place.
void blank(std::string& text, Span span) {
    for (std::uint32_t at = span.begin; at < span.end && at < text.size(); ++at)
        if (text[at] != '\n' && text[at] != '\r') text[at] = ' ';
}

/// Its lines, and the comments that belong to it.
void blank_block(const tree::File& file, std::uint32_t block, std::string_view was,
                 std::string& text) {
    const tree::Block& whole = file.blocks[block];
    blank(text, whole.span);
    for (std::uint32_t i = 0; i < whole.count; ++i) blank(text, file.lines[whole.first + i].span);
    // Its own begin behind the block before, and end before the next.
    const std::uint32_t begin = block == 0 ? 0 : file.blocks[block - 1].span.end;
    const std::uint32_t end =
        block + 1 < file.blocks.size() ? file.blocks[block + 1].span.begin : nothing;
    for (auto next = first_comment(file, begin);
         next != file.comments.end() && next->span.begin < end; ++next)
        if (next->shared && block_of(file, was, *next) == block) blank(text, next->span);
}

/// The last line of each form in all that a blend is like is the one that counts.
Openly openly_of(const Index& index, Place blend) {
    Openly out;
    for (const Place place : index.chain(blend))
        for (const tree::Line* line : index.lines(place)) {
            if (line->form == Form::role) out.role = !line->is_private;
            if (line->form == Form::density) out.density = !line->is_private;
            if (line->form == Form::bulk) out.bulk = !line->is_private;
        }
    return out;
}

/// The texts of a person's own files with blanks in them.
class Blanker {
public:
    Blanker(const Compiled& source, const Index& index) : source_(source), index_(index) {
        for (const LoadedFile& file : source.files)
            texts_[file.tree.source] = source.sources[file.tree.source].text;
    }

    void lines(const std::vector<Span>& stays) {
        for (const LoadedFile& loaded : source_.files)
            for (const tree::Line& line : loaded.tree.lines)
                if (!loaded.library && line.is_private && !must_go_out(line.form))
                    blank(texts_[loaded.tree.source], line.span);
        for (const Span span : stays) blank(texts_[span.source], span);
    }

    std::vector<SealedBlend> blends() {
        std::vector<SealedBlend> out;
        for (IngredientId id = 0; id < source_.formulary.ingredients.size(); ++id) {
            const Ingredient& one = source_.formulary.ingredients[id];
            const Place place = one.sealed ? index_.at(one.span) : Place{};
            if (!place) continue;
            const tree::File& file = index_.file(place);
            blank_block(file, place.block, source_.sources[file.source].text,
                        texts_[file.source]);
            out.push_back({id, openly_of(index_, place)});
        }
        return out;
    }

    std::string& text(SourceId id) { return texts_[id]; }
    bool changed(SourceId id) const { return texts_.contains(id); }

private:
    const Compiled& source_;
    const Index& index_;
    std::map<SourceId, std::string> texts_;
};

}  // namespace

Open open_part(const Compiled& source, const std::vector<Span>& stays) {
    Open out;
    const Index index(source);
    Blanker blanker(source, index);
    out.sealed = blanker.blends();
    blanker.lines(stays);
    Sources& sources = out.compiled.sources;
    for (SourceId id = 0; id < source.sources.size(); ++id) {
        const Source& one = source.sources[id];
        sources.add({one.name, blanker.changed(id) ? blanker.text(id) : one.text, one.library});
    }
    std::string page;
    for (const SealedBlend& blend : out.sealed)
        page += sealed_head(source.formulary, blend.id, blend.openly) + '\n';
    out.sealed_page = sources.add({"sealed blends", page, false});
    // Read anew, and not only resolved anew: not even the order in which names are met may tell
    // anything.
    const auto read_one = [&](SourceId id, bool library, bool own) {
        auto read_file = read(sources, id, out.compiled.names);
        out.failed = out.failed || (!library && any_error(read_file.findings));
        out.compiled.files.push_back({std::move(read_file.value), library, own});
    };
    for (const LoadedFile& file : source.files)
        read_one(file.tree.source, file.library, file.own);
    if (!out.sealed.empty()) read_one(out.sealed_page, false, false);
    auto resolved = resolve(sources, out.compiled.names, out.compiled.files, false);
    out.compiled.formulary = std::move(resolved.value);
    out.compiled.findings = std::move(resolved.findings);
    return out;
}

std::set<std::string> inside_sealed(const Compiled& source) {
    const Formulary& formulary = source.formulary;
    std::vector<IngredientId> due;
    for (IngredientId id = 0; id < formulary.ingredients.size(); ++id)
        if (formulary.ingredients[id].sealed) due.push_back(id);
    std::vector<bool> seen(formulary.ingredients.size());
    std::set<std::string> out;
    while (!due.empty()) {
        const Mix* mix = mix_of(formulary, due.back());
        due.pop_back();
        if (!mix) continue;
        for (const Part& part : mix->formula.parts) {
            if (part.what == no_ingredient || seen[part.what]) continue;
            seen[part.what] = true;
            out.emplace(source.names.folded(formulary.ingredients[part.what].sym));
            due.push_back(part.what);
        }
    }
    return out;
}

namespace {

/// Indented comments in a row, the first right below a line that is none.
bool indented_below_line(std::string_view text, std::size_t at) {
    for (;;) {
        const std::size_t begin = at == 0 ? 0 : text.rfind('\n', at - 1) + 1;  // 0 where none is
        if (begin == 0 || (text[begin] != ' ' && text[begin] != '\t')) return false;
        const std::size_t above = begin < 2 ? 0 : text.rfind('\n', begin - 2) + 1;
        const std::string_view line = text.substr(above, begin - 1 - above);
        const std::size_t first = line.find_first_not_of(" \t\r");
        if (first == line.npos) return false;
        if (line[first] != '#') return true;
        at = above + first;
    }
}

}  // namespace

std::vector<tree::Comment>::const_iterator first_comment(const tree::File& file,
                                                         std::uint32_t begin) {
    return std::partition_point(
        file.comments.begin(), file.comments.end(),
        [&](const tree::Comment& one) { return one.span.begin < begin; });
}

std::uint32_t block_of(const tree::File& file, std::string_view text,
                       const tree::Comment& comment) {
    const auto next = std::partition_point(
        file.blocks.begin(), file.blocks.end(),
        [&](const tree::Block& block) { return block.span.begin < comment.span.begin; });
    const auto index = static_cast<std::uint32_t>(next - file.blocks.begin());
    const std::uint32_t before = index == 0 ? nothing : index - 1;
    if (next == file.blocks.end() || indented_below_line(text, comment.span.begin)) return before;
    std::string_view gap = text.substr(comment.span.end, next->span.begin - comment.span.end);
    gap.remove_prefix(std::min(gap.find('\n'), gap.size()));
    while (!gap.empty()) {
        gap.remove_prefix(1);
        const std::size_t end = std::min(gap.find('\n'), gap.size());
        const std::string_view line = gap.substr(0, end);
        const std::size_t first = line.find_first_not_of(" \t\r");
        const bool last = end == gap.size();
        if (!last && (first == line.npos || line[first] != '#')) return before;
        gap.remove_prefix(end);
    }
    return index;
}

}  // namespace levigate::sharing
