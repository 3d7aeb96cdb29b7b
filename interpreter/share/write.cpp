#include "interpreter/share/write.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/share/open.hpp"
#include "interpreter/share/print.hpp"

namespace levigate::sharing {

namespace {

constexpr std::string_view usual_balance = "hundredths of a gram";

class Writer {
public:
    Writer(const Compiled& compiled, const Index& index, const Picked& picked,
           const SealedBlocks& sealed, const MeasureSplit& split)
        : compiled_(compiled), formulary_(compiled.formulary), index_(index), picked_(picked),
          sealed_(sealed), split_(split) {}

    std::string operator()(const Title& title) {
        top(title);
        for (const Place place : picked_.tables) written(place);
        if (picked_.usual_balance)
            out_ += fmt::format("balance {}\n    reads  0.01 g\n\n", usual_balance);
        for (const Place place : picked_.materials) material(place);
        for (const PickedMix& mix : picked_.mixes) this->mix(mix);
        for (const Place place : picked_.versions) written(place);
        for (const PickedShade& shade : picked_.shades) this->shade(shade);
        return std::move(out_);
    }

private:
    void top(const Title& title);
    void comments(Place place, std::uint32_t begin, std::uint32_t end);
    void comments_above(Place place);
    void line(std::string_view words) { out_ += fmt::format("    {}\n", words); }
    void written(Place place, const PickedShade* shade = nullptr);
    void comments_below(Place place);
    std::uint32_t last_line_end(std::uint32_t file, std::uint32_t block) const;
    std::string_view comment_words(Place place, const tree::Comment& comment) const {
        return text(place).substr(comment.span.begin, comment.span.end - comment.span.begin);
    }
    void material(Place place);
    void mix(const PickedMix& mix);
    void dilutions(const std::vector<Diluted>& lines);
    void flat_lines(const Formula& formula, const std::vector<TextId>& steps,
                    const std::vector<TextId>& notes);
    void texts(std::string_view word, const std::vector<TextId>& ids);
    void shade(const PickedShade& picked);
    void flat_shade(const PickedShade& picked);
    void lets(const PickedShade& picked);
    bool wants_holes(const Shade& shade) const;
    void balance(const PickedShade& picked);
    bool is_private(Place leaf, Form form) const;
    std::string tidied(Place place, const tree::Line& line) const {
        return tidy_line(text(place), index_.file(place), line, split_);
    }
    std::string_view text(Place place) const {
        return compiled_.sources[index_.file(place).source].text;
    }

    const Compiled& compiled_;
    const Formulary& formulary_;
    const Index& index_;
    const Picked& picked_;
    const SealedBlocks& sealed_;
    const MeasureSplit& split_;
    std::string out_;
};

// ---- The head ----------------------------------------------------------------------------------

std::string edition_words(const Title& title) {
    std::string out = title.number.empty() ? "" : "Edition " + title.number;
    if (!title.date.empty()) out += (out.empty() ? "" : ", ") + title.date;
    return out;
}

void Writer::top(const Title& title) {
    std::vector<std::string> lines{title.title};
    if (const std::string words = edition_words(title); !words.empty()) lines.push_back(words);
    lines.push_back("The law where you make, give or sell this goes before this file: read the "
                    "current rules on");
    lines.push_back("colourants and labels, and the safety sheet of each material.");
    if (picked_.powder || sealed_.powder)
        lines.push_back("Fine powders: mask and gloves on, no draught, let the dust settle.");
    if (picked_.flammable || sealed_.flammable)
        lines.push_back("Flammable: no flame, no spark, no hot plate; lid on, fresh air.");
    for (const std::string& line : lines) out_ += "## " + line + "\n";
    // What the maker says to her readers at the head of her file; not once more what stands above.
    const tree::File& file = compiled_.files.front().tree;
    const std::string_view own = compiled_.sources[file.source].text;
    std::uint32_t end = file.blocks.empty() ? 0 : file.blocks.front().span.begin;
    for (const tree::Block& block : file.blocks)
        if (block.heading == Heading::edition) end = std::max(end, block.span.begin);
    for (const tree::Comment& comment : file.comments) {
        if (!comment.shared || comment.span.begin >= end) continue;
        const auto in_block = [&](const tree::Block& block) {
            return block.heading > Heading::use && block.heading != Heading::edition &&
                   block.span.begin < end;
        };
        if (std::any_of(file.blocks.begin(), file.blocks.end(), in_block)) continue;
        const std::string_view words =
            own.substr(comment.span.begin, comment.span.end - comment.span.begin);
        const std::string said = tidy_name(words.substr(2));
        if (std::find(lines.begin(), lines.end(), said) == lines.end())
            out_ += fmt::format("{}\n", words);
    }
    out_ += '\n';
    std::vector<std::string> markets;
    for (const Called& market : formulary_.markets) markets.push_back(name_words(market.name));
    if (!markets.empty()) out_ += fmt::format("market {}\n\n", fmt::join(markets, ", "));
    out_ += fmt::format("edition {}\n", name_words(title.title));
    if (!title.number.empty()) line("number  " + title.number);
    if (!title.date.empty()) line("date  " + title.date);
    if (formulary_.edition) texts("note", formulary_.edition->notes);
    out_ += '\n';
}

// ---- Blocks as they were written ---------------------------------------------------------------

void Writer::comments(Place place, std::uint32_t begin, std::uint32_t end) {
    const auto& all = index_.file(place).comments;
    auto next = first_comment(index_.file(place), begin);
    for (; next != all.end() && next->span.begin < end; ++next)
        if (next->shared)
            out_ += fmt::format(
                "{}\n", text(place).substr(next->span.begin, next->span.end - next->span.begin));
}

/// Those that belong to it and are above its heading. At the head of the file they are the file's.
void Writer::comments_above(Place place) {
    if (place.block == 0) return;
    const tree::File& file = index_.file(place);
    const tree::Block& before = file.blocks[place.block - 1];
    const bool head = before.heading <= Heading::use || before.heading == Heading::edition;
    if (place.file == 0 && before.heading <= Heading::use)
        for (const tree::Block& block : file.blocks)
            if (block.heading == Heading::edition && block.span.begin > before.span.begin) return;
    for (auto next = first_comment(file, before.span.end);
         next != file.comments.end() && next->span.begin < index_.block(place).span.begin; ++next) {
        const tree::Comment& comment = *next;
        if (!comment.shared) continue;
        const std::uint32_t owner = block_of(file, text(place), comment);
        if (owner == place.block || (head && owner == place.block - 1 &&
                                     comment.span.begin > last_line_end(place.file, owner)))
            out_ += fmt::format("{}\n", comment_words(place, comment));
    }
}

/// Those that belong to it and are below its last line.
void Writer::comments_below(Place place) {
    const tree::File& file = index_.file(place);
    const std::uint32_t end = last_line_end(place.file, place.block);
    const std::uint32_t next_block = place.block + 1 < file.blocks.size()
                                         ? file.blocks[place.block + 1].span.begin
                                         : nothing;
    for (auto next = first_comment(file, end);
         next != file.comments.end() && next->span.begin < next_block; ++next)
        if (next->shared && block_of(file, text(place), *next) == place.block)
            out_ += fmt::format("{}\n", comment_words(place, *next));
}

std::uint32_t Writer::last_line_end(std::uint32_t file, std::uint32_t block) const {
    const auto lines = index_.lines({file, block});
    return lines.empty() ? index_.block({file, block}).span.end : lines.back()->span.end;
}

/// A sealed blend, as what is told of it; any other as it is written.
void Writer::material(Place place) {
    if (index_.file(place).source != sealed_.page) return written(place);
    const auto block = sealed_.blocks.find(place.block);
    if (block != sealed_.blocks.end()) out_ += block->second + '\n';
}

/// A lot is of a jar, not of a formula.
bool is_lot(const tree::Block& block, const tree::Line& line) {
    return block.heading == Heading::material && line.form == Form::certified;
}

void Writer::written(Place place, const PickedShade* shade) {
    comments_above(place);
    const tree::Block& block = index_.block(place);
    out_ += tidy_heading(text(place), index_.file(place), block) + '\n';
    std::uint32_t end = block.span.end;
    bool bare = block.heading == Heading::finish || block.heading == Heading::variant;
    for (const tree::Line* one : index_.lines(place)) {
        comments(place, end, one->span.begin);
        end = one->span.end;
        if (one->is_private || is_lot(block, *one)) continue;
        bare = false;
        if (one->form != Form::also_called) {
            line(tidied(place, *one));
            continue;
        }
        // Of a material's other names those that stand for it here too.
        std::vector<std::string> names;
        for (const Name& name : std::get<tree::NameList>(one->body).names)
            if (const auto known = formulary_.called.find(name.sym);
                known != formulary_.called.end() &&
                index_.at(formulary_.ingredients[known->second].span) == place)
                names.push_back(name_words(tidy_name(compiled_.sources.text(name.span))));
        if (!names.empty()) line(fmt::format("also called  {}", fmt::join(names, ", ")));
    }
    if (place.file != 0 || block.heading != Heading::edition) comments_below(place);
    if (bare) line("note  It adds nothing.");  // a block that says nothing is an error
    if (shade) balance(*shade);
    out_ += '\n';
}

// ---- Reckoned out ------------------------------------------------------------------------------

void Writer::texts(std::string_view word, const std::vector<TextId>& ids) {
    for (const TextId id : ids)
        if (!formulary_.texts[id].is_private)
            line(fmt::format("{}  {}", word, text_words(formulary_, formulary_.texts[id])));
}

void Writer::dilutions(const std::vector<Diluted>& lines) {
    for (const Diluted& one : lines) {
        const tree::Line* written = index_.line_at(one.span);
        if (written && written->is_private) continue;
        const Dilution& dilution = formulary_.dilutions[one.dilution];
        line(fmt::format("dilute  {} to {} in {}", name_words(formulary_.name(dilution.what)),
                         exact_share(dilution.strength),
                         name_words(formulary_.name(dilution.base))));
    }
}

void Writer::flat_lines(const Formula& formula, const std::vector<TextId>& steps,
                        const std::vector<TextId>& notes) {
    for (const Part& part : formula.parts) line(part_words(formulary_, part));
    texts("step", steps);
    texts("note", notes);
}

void Writer::mix(const PickedMix& mix) {
    const Ingredient& ingredient = formulary_.ingredients[mix.id];
    if (mix.way == Way::written) return written(mix.place);
    if (ingredient.kind == Ingredient::Kind::blend) comments_above(mix.place);
    out_ += fmt::format("blend {}\n", name_words(ingredient.name));
    if (ingredient.role != no_name && !is_private(mix.place, Form::role))
        line("role  " + name_words(formulary_.role_names[ingredient.role]));
    if (ingredient.density && !is_private(mix.place, Form::density))
        line("density  " +
             density_words(*ingredient.density, formulary_.tolerance(mix.id).density));
    if (ingredient.bulk && !is_private(mix.place, Form::bulk))
        line("bulk  " + density_words(*ingredient.bulk, formulary_.tolerance(mix.id).bulk));
    const Mix& whole = *mix_of(formulary_, mix.id);
    dilutions(whole.dilutions);
    flat_lines(whole.formula, whole.steps, whole.notes);
    out_ += '\n';
}

/// The last line of this form in all that the block is like, which is the one that counts.
bool Writer::is_private(Place leaf, Form form) const {
    bool out = false;
    for (const Place place : index_.chain(leaf))
        for (const tree::Line* one : index_.lines(place))
            if (one->form == form) out = one->is_private;
    return out;
}

void Writer::balance(const PickedShade& picked) {
    if (picked.usual_balance) line(fmt::format("weigh on  {}", usual_balance));
    if (picked.balance != nothing)
        line("weigh on  " + name_words(formulary_.balances[picked.balance].name));
}

void Writer::shade(const PickedShade& picked) {
    if (picked.way == Way::written) return written(picked.place, picked.family ? nullptr : &picked);
    flat_shade(picked);
}

bool Writer::wants_holes(const Shade& shade) const {
    std::vector<Place> places;
    for (const Version& version : shade.versions)
        if (const Place place = index_.find(Heading::variant, version.sym)) places.push_back(place);
    for (const ShadeFinish& finish : shade.finishes)
        if (const Place place = index_.find(Heading::finish, finish.sym)) places.push_back(place);
    for (const Place place : places)
        for (const tree::Line* one : index_.lines(place))
            if (compiled_.sources.text(one->span).find('{') != std::string_view::npos) return true;
    return false;
}

/// Holes that variants and finishes wait for are filled by the shade.
void Writer::lets(const PickedShade& picked) {
    std::vector<std::pair<Sym, std::string>> all;
    for (const Place place : index_.chain(picked.place))
        for (const tree::Line* one : index_.lines(place)) {
            if (one->form != Form::let) continue;
            const Sym hole = std::get<tree::Let>(one->body).hole.sym;
            std::erase_if(all, [&](const auto& other) { return other.first == hole; });
            all.emplace_back(hole, tidied(place, *one));
        }
    for (const auto& [hole, words] : all) line(words);
}

void Writer::flat_shade(const PickedShade& picked) {
    const Shade& shade = formulary_.shades[picked.id];
    Place own = picked.place;  // of a member that of the shade whose properties it has
    if (shade.member)
        for (const tree::Line* one : index_.lines(picked.place)) {
            if (one->form == Form::from)
                own = index_.find(Heading::shade, std::get<tree::Reference>(one->body).name.sym);
            if (const auto* between = std::get_if<tree::Between>(&one->body))
                own = index_.find(Heading::shade, between->first.sym);
        }
    else
        comments_above(picked.place);
    out_ += fmt::format("shade {}\n", name_words(shade.name));
    if (!shade.member && wants_holes(shade)) lets(picked);
    for (const Part& part : shade.versions[0].formula.parts) line(part_words(formulary_, part));
    dilutions(shade.versions[0].dilutions);
    std::vector<std::string> variants, finishes, markets;
    for (const Version& version : shade.versions)
        if (!version.variant.empty()) variants.push_back(name_words(version.variant));
    for (const ShadeFinish& finish : shade.finishes)
        if (finish.finishing != nothing)
            finishes.push_back(name_words(
                formulary_.finishes[formulary_.finishings[finish.finishing].finish].name));
    for (const Called& market : shade.markets) markets.push_back(name_words(market.name));
    const auto list = [&](Form form, const std::vector<std::string>& names) {
        if (!names.empty() && !is_private(own, form))
            line(fmt::format("{}  {}", entry(form).word, fmt::join(names, ", ")));
    };
    list(Form::variants, variants);
    list(Form::finishes, finishes);
    list(Form::market, markets);
    const auto open = [&](Span span) {
        const tree::Line* one = index_.line_at(span);
        return !one || !one->is_private;
    };
    for (const Batch& batch : shade.batches)
        if (open(batch.size.span)) line(batch_words(formulary_, batch));
    if (shade.balance != nothing && !is_private(own, Form::weigh_on))
        line("weigh on  " + name_words(formulary_.balances[shade.balance].name));
    balance(picked);
    for (const Expectation& expect : shade.expects)
        if (open(expect.span)) line(expect_words(formulary_, expect));
    texts("step", shade.versions[0].steps);
    texts("note", shade.versions[0].notes);
    if (!shade.member)
        for (const tree::Line* one : index_.lines(picked.place))
            if (one->form == Form::swatch && !one->is_private) line(tidied(picked.place, *one));
    out_ += '\n';
}

}  // namespace

std::string write_edition(const Compiled& compiled, const Index& index, const Picked& picked,
                          const SealedBlocks& sealed, const Title& title,
                          const MeasureSplit& split) {
    return Writer(compiled, index, picked, sealed, split)(title);
}

}  // namespace levigate::sharing
