#pragma once
// What the sources of this room share: the tables that names are looked up in, what is under way,
// and the one place where findings go. Nobody outside the room includes this.

#include <initializer_list>
#include <optional>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "grammar/finding.hpp"
#include "grammar/names.hpp"
#include "grammar/source.hpp"
#include "grammar/tree.hpp"
#include "interpreter/formulary/density_memo.hpp"
#include "interpreter/formulary/formulary.hpp"
#include "interpreter/resolve/dilutions.hpp"
#include "interpreter/resolve/load.hpp"
#include "interpreter/resolve/nesting.hpp"

namespace levigate::resolving {

// ---- Limits: a stated budget, so that no file can take hours -----------------------------------

inline constexpr std::size_t longest_chain = 200;     ///< of `like`, of blends within blends
inline constexpr std::size_t longest_formula = 2000;  ///< lines
inline constexpr std::size_t most_holes = 300;        ///< of one shade
inline constexpr std::size_t most_parts = 500000;     ///< lines of all formulas together
inline constexpr std::size_t most_texts = 200000;     ///< steps and notes, with their swapped forms
inline constexpr std::size_t most_findings = 1000;    ///< more tell nobody anything
inline constexpr std::size_t most_near = 4000000;     ///< letters compared in search of near names
inline constexpr std::size_t most_members = 1000;     ///< of one family
inline constexpr std::uint32_t parts_tag = 0xFFFFFFFFu;  ///< counts of parts, not of a container

// ---- Names in scope ----------------------------------------------------------------------------

/// A block, and the file it stands in.
struct At {
    std::uint32_t file = nothing;
    std::uint32_t block = nothing;
    bool ambiguous = false;  ///< looked up by a name that several blocks of the kind have
    explicit operator bool() const { return file != nothing; }
    bool is(const At& other) const { return file == other.file && block == other.block; }
    /// A number of its own, never 0.
    std::uint64_t key() const { return (std::uint64_t{file} + 1) << 32 | block; }
};

/// What a name stands for among the blocks of one kind.
using Table = std::unordered_map<Sym, At>;

struct Scope {
    Table unit, material_or_blend, shade, variant, finish, family, container, balance, region, plan;
};

/// Names that may be missing because something else went wrong: a heading lost its name, or a
/// file could not be read. What seems unknown then is not reported, unless a near name is there.
struct Lost {
    bool file = false;
    std::uint32_t headings = 0;  ///< bit set of the headings that lost a name
    bool role = false;           ///< a material or blend lost a line
    bool any(std::uint32_t of) const { return file || (headings & of) != 0; }
};

// ---- Holes -------------------------------------------------------------------------------------

/// What one of a measure is, and what the language or the block that defines it calls it.
struct Measure {
    Quantity one;
    std::string name;
};

/// The measure that all of an expression is written in. Plain numbers are of none.
struct Unit {
    const Measure* one = nullptr;
    bool mixed = false;
};

/// `{depth}` and what it holds: from a `let`, or from a family that overrides it.
struct Binding {
    Sym hole = no_name;
    std::uint32_t file = 0;
    tree::Value value;
    Span span;            ///< the line that fills it
    Span hole_span = {};  ///< the hole there
    enum class State : std::uint8_t { fresh, working, done } state = State::fresh;
    std::optional<Quantity> quantity = {};
    Name name = {};
    std::string words = {};  ///< of the quantity, once somebody asked
    Unit unit = {};          ///< with the words

    /// Not reckoned yet: what it depends on may be filled otherwise.
    void refresh() {
        state = State::fresh;
        quantity.reset(), name = {}, words.clear(), unit = {};
    }
};
struct Env {
    std::vector<Binding> bindings;
    bool lost = false;  ///< a line of the chain was lost that may have been a `let`
    bool full = false;  ///< it has more holes than it may, said
    Binding* find(Sym hole) {
        for (Binding& binding : bindings)
            if (binding.hole == hole) return &binding;
        return nullptr;
    }
};

// ---- Recipes: a formula while it is edited -----------------------------------------------------

/// A line that still remembers the volume it was written with: a swap keeps the amount as
/// written, so what it weighs is reckoned last.
struct WorkPart {
    Part part;
    std::optional<Quantity> poured;  ///< a volume, or a volume per mass
};

struct Recipe {
    std::vector<WorkPart> parts;
    std::vector<WorkDilution> dilutions;
    std::vector<TextId> steps, notes;
    bool broken = false;     ///< a line was lost; said already
    bool ambiguous = false;  ///< it is like something whose name several blocks have
};

/// What a shade has beside its recipe, inherited and replaced by name.
struct Traits {
    std::vector<Name> variants, finishes;
    std::vector<std::pair<std::uint32_t, tree::Line>> batches;  ///< file, line
    std::vector<std::pair<std::uint32_t, tree::Line>> expects;
    std::vector<Name> markets;
    Name balance;
    bool damaged = false;
};

/// A shade block on its way into the formulary.
struct ShadeState {
    enum class State : std::uint8_t { untouched, working, done } state = State::untouched;
    Env env;        ///< its own, before any use changes a binding's state
    Recipe recipe;  ///< under its own holes
    Traits traits;
    std::vector<At> chain;  ///< root first, itself last
    bool broken = false;
    std::uint32_t shade = nothing;  ///< in Formulary::shades
    IngredientId ingredient = no_ingredient;
};

struct Context {
    const Sources& sources;
    Names& names;
    const std::vector<LoadedFile>& files;
    Formulary& out;
    Findings& findings;
    Scope scope{};
    std::unordered_set<Sym> unknown{};         ///< names that nothing is called, said once
    std::unordered_set<std::uint64_t> said{};  ///< code and place, so that nothing is said twice
    std::unordered_map<std::string, std::optional<Measure>> measures{};  ///< by folded words
    std::unordered_set<Sym> measures_open{};                             ///< to tell a loop
    std::vector<IngredientId> ingredient_of{};  ///< by Sym: material, other name, blend
    std::vector<At> blend_at{};                 ///< by IngredientId, of blends
    std::vector<std::uint8_t> mix_state{};      ///< by IngredientId: 0, 1 working, 2 done
    std::vector<At> open{};                     ///< blends and shades on the way down
    Lost lost{};
    std::uint64_t taker = 0;  ///< tells the shade under way, while it is added, from all others
    bool apart = false;       ///< a member that goes wrong where the shade that it varies doesn't
    std::string blamed{};     ///< the shade that goes wrong first as the one under way does
    Span asked{};             ///< where a shade takes the finish under way
    const Traits* traits = nullptr;  ///< of the shade under way, while it is added
    Env* env = nullptr;              ///< its holes
    At edited{};                     ///< whose edits were made last, if all before them was solved
    std::size_t near_asked = 0;      ///< letters compared so far: looking for near names takes long
    std::vector<std::pair<std::size_t, Sym>> unfound{};  ///< findings of names, by their index
    std::vector<std::unordered_map<std::uint32_t, ShadeState>> shades{};  ///< by file and block
    std::unordered_map<Sym, FinishingId> finishings{};  ///< of finishes without holes
    std::unordered_map<Sym, FinishId> finish_ids{};
    std::unordered_map<Sym, std::size_t> members{};  ///< of families: the first of each name
    std::vector<ContainerId> container_of{};                       ///< by Sym
    std::vector<BalanceId> balance_of{};                           ///< by Sym
    std::vector<bool> is_role{};                                   ///< by Sym
    std::unordered_map<std::string, std::uint32_t> dilution_of{};  ///< by what, base and strength
    std::size_t parts_made = 0;
    Nesting nesting{};
    DensityMemo densities{};

    const tree::File& file(std::uint32_t index) const { return files[index].tree; }
    const tree::Block& block(At at) const { return files[at.file].tree.blocks[at.block]; }
    std::string written(Span span) const { return tidy_name(sources.text(span)); }
    bool library(Span span) const { return span && sources[span.source].library; }
};

/// Adds a finding, unless the same was said of the same place.
void report(Context& context, Finding finding);
/// Adds what goes wrong in one shade at a line that others may hold as well: unless it was said of
/// the same place for the same shade. `whose` is named in it where the place alone doesn't tell.
void report_of(Context& context, Finding finding, const std::string& whose, std::uint64_t which);
/// A name with the quotes around it, where it stands in quotes: its own span is what they hold.
Span with_quotes(const Context& context, Span name);

// ---- scope.cpp ---------------------------------------------------------------------------------

void fill_scope(Context& context);
/// Of two blocks of one name: `kind` is what each of them is.
void report_twice(Context& context, At first, At second, std::string_view kind);
At look(const Table& table, Sym sym);

// ---- alike.cpp ---------------------------------------------------------------------------------

/// Warns of a person's names that look like another, or mix the letters of two scripts.
void report_lookalikes(Context& context);
/// Where what is written looks like what should be: the sign that tells them apart. Else empty.
std::string told_apart(std::string_view written, std::string_view meant);

// ---- measures.cpp ------------------------------------------------------------------------------

/// The measure by its folded name in singular or plural; null where unknown.
const Measure* measure(Context& context, std::string_view folded);
/// True where a block defines the measure, in singular or plural: what is wrong was said there.
bool has_measure_block(Context& context, std::string_view folded);
/// Names that blocks can't give to a measure, since no line could hold them.
void report_measure_names(Context& context);
/// Parts `words` into the longest measure and the rest. Nothing where no measure begins it.
struct Split {
    Quantity one;
    Span measure, name;
};
std::optional<Split> split_measure(Context& context, Span words);
/// The same for `slim tubes of Damson`: the longest measure with `of` behind it, and the name.
std::optional<Split> split_at_of(Context& context, Span words);
/// Bytes of the longest measure that begins `words`, be its block sound or not; 0 for none.
std::size_t measure_length(Context& context, std::string_view words);

// ---- evaluate.cpp ------------------------------------------------------------------------------

/// So many of one, by the number as written; 1 where none is. Nothing, said, where it can't be.
std::optional<Quantity> so_many(Context& context, Span number, const Quantity& one);
/// The value of an expression, or nothing, said already.
std::optional<Quantity> evaluate(Context& context, std::uint32_t file, tree::ExprId expr, Env& env);
/// As above, and of the kind that is due there; `due` says it: "a weight", with an example.
std::optional<Quantity> evaluate_as(Context& context, std::uint32_t file, tree::ExprId expr,
                                    Env& env, Kind kind, std::string_view example);
/// A factor: a plain number or a share.
std::optional<Exact> evaluate_factor(Context& context, std::uint32_t file, tree::ExprId expr,
                                     Env& env);
/// The name behind a hole, or the name itself.
Name resolve_name(Context& context, const Name& name, Env& env);
Binding* settle(Context& context, Name hole, Env& env);
/// The near hole to write in the place of one that nothing fills, if there is any.
std::vector<Fix> near_hole(const Context& context, const Env& env, const Name& hole);
/// A hole with its braces, also if the span is that of the word inside them.
Span with_braces(const Context& context, Span hole);

/// Kinds that don't go together, with an expression that works.
Finding refused(Context& context, std::uint32_t file, tree::ExprId expr, const Refusal& refusal,
                const Quantity& left, const Quantity& right);
/// A value as a person reads it: `4 %`, `2.5 g`, `75 °C (167 °F)`.
std::string quantity_words(const Context& context, const Quantity& quantity);

// ---- written.cpp -------------------------------------------------------------------------------

/// A value as its maker wrote it, in canonical form: `2 drops per 10 g`, `1/2 part`. What is
/// reckoned out prints its result, in the measure that all of it is written in.
std::string written_words(Context& context, std::uint32_t file, tree::ExprId expr, Env& env);
/// What a settled hole holds: its value as above, or its name.
std::string hole_words(Context& context, Binding& binding, Env& env);

// ---- refs.cpp, amounts.cpp ---------------------------------------------------------------------

/// True if a material, a blend or a shade has the name.
bool names_something(const Context& context, Sym sym);
/// Looks an ingredient up by name; says where there is none. Blends are resolved on the way.
IngredientId find_ingredient(Context& context, Name name, Env& env);
/// True where several blocks have the name, so that nothing says which is meant.
bool ambiguous_name(Context& context, Name name, Env& env);
std::optional<Ref> resolve_ref(Context& context, const tree::Ref& ref, bool finish, Env& env);
struct ResolvedLine {
    IngredientId what = no_ingredient;
    Span name_span;
    Span amount_span;
    std::optional<PartAmount> amount;  ///< nothing: said already
    std::optional<Quantity> poured;
    std::vector<Span> filled;  ///< the lines that fill the holes of the amount
    bool ambiguous = false;    ///< several blocks have the name
};
ResolvedLine resolve_line(Context& context, std::uint32_t file, const tree::Line& line, Env& env,
                          bool finish);
/// What a poured line weighs: fills its amount. False where a density lacks; that is said.
bool weigh_poured(Context& context, WorkPart& line);
OriginId add_origin(Context& context, Origin origin);
/// An origin for each line that fills a hole, behind `before`.
OriginId add_filled(Context& context, const std::vector<Span>& filled, OriginId before);
/// True where a line is written by a name that several blocks have, or is a mix that holds one.
bool any_ambiguous(const Context& context, const Recipe& recipe);
/// The size of an amount as one number of its own kind, for its origin.
Exact amount_value(const PartAmount& amount);

// ---- edits.cpp, rebalance.cpp ------------------------------------------------------------------

/// Applies a block's lines to a recipe: as a first formula, or as edits of an inherited one.
/// `whose` is what messages call it: of a variant the shade that takes it as well.
void apply_block(Context& context, At at, Env& env, Recipe& recipe, bool edits,
                 const std::string& whose);
void rebalance(Context& context, Span line, const std::vector<IngredientId>& touched,
               Recipe& recipe, const std::string& whose, std::uint64_t which);
/// Weighs what was poured and solves. False where it could not be; said, unless `quiet`.
bool finish_formula(Context& context, Recipe& recipe, Formula& formula, const std::string& whose,
                    Span where, bool quiet);

// ---- texts.cpp ---------------------------------------------------------------------------------

TextId make_text(Context& context, std::uint32_t file, const tree::Line& line, Env& env);
/// The same text with `from` replaced; the id itself where it doesn't name it.
TextId swapped_text(Context& context, TextId text, IngredientId from, IngredientId to);
/// Warns of what a step names and the formula has no line of.
void check_texts(Context& context, const std::vector<TextId>& texts, const Formula& formula,
                 const std::vector<Addition>* additions, const std::string& whose);
/// A text without holes, as it stands.
std::string plain_text(const Context& context, const tree::Text& text);

// ---- mixes.cpp, shades.cpp ---------------------------------------------------------------------

/// Resolves and solves the blend or the shade behind an ingredient.
void ensure_mix(Context& context, IngredientId ingredient, Span mention = {});
void add_lets(Context& context, At at, Env& env);
ShadeState& ensure_shade(Context& context, At at);
/// A ring of blends and shades that hold each other, closed where `mention` stands.
void report_blend_loop(Context& context, At again, Span mention);
/// Forgets what only a child of the shade would need.
void release_recipe(Context& context, At at);
/// The recipe of a chain under the given holes. `whose` is what messages call it: the shade or
/// member whose holes these are; if it is empty, each block by its own name. `blamed` is the shade
/// that it comes from if that goes wrong already: what both have in common is said once.
Recipe build_recipe(Context& context, const std::vector<At>& chain, Env& env,
                    const std::string& whose = {}, const std::string& blamed = {});
IngredientId shade_ingredient(Context& context, At at);
void count_parts(Context& context, std::size_t parts, Span where);
/// Adds the shade with its variants, finishes, batches and expectations to the formulary. `at` is
/// its block, or the family's that it is a member of; `from` its own, or the one that it varies.
void add_shade(Context& context, const std::string& name, Sym sym, Span span, At at, At from,
               Recipe recipe, Env& env, const Traits& traits);

// ---- the rest ----------------------------------------------------------------------------------

void add_materials(Context& context);
void add_containers_and_balances(Context& context);
/// One balance; those of FILE are noted as its own.
void add_balance_block(Context& context, At at);
void add_plans(Context& context);
/// What stands in a `price` line; nothing, said, where it is no price.
std::optional<Price> material_price(Context& context, std::uint32_t file, const tree::Line& line);
std::optional<Price> container_price(Context& context, std::uint32_t file, const tree::Line& line,
                                     const std::string& container, Sym sym);
void add_rates(Context& context);
/// A date as written; `day`: not a month alone. Nothing, said, where there is no such one.
std::optional<Date> date(Context& context, Span written, bool day, std::string_view month_words);
void add_shelves(Context& context);
/// Rules, regions, and where a file is sold.
void add_rules(Context& context);
/// `CI 77266 (nano)` of a material whose part is nano, `Blue 1 Lake` of a rule's label.
void name_what_lists_need(Context& context);
Called called(const Context& context, const Name& name);
/// A share of something: above nothing (or at it) and no more than all; says where it is not.
std::optional<Share> possible_share(Context& context, std::uint32_t file, tree::ExprId expr,
                                    std::string_view example, bool may_be_nothing = true);
/// The parts of a `label`, `contains` or `in` line.
std::vector<LabelPart> label_parts(Context& context, std::uint32_t file,
                                   const tree::LabelLine& line);
/// What FILE says of itself where it goes out, and blends that are sealed.
void add_edition(Context& context);
void check_sealed(Context& context);
std::vector<Swatch> swatches_in(Context& context, At at);
void add_swatches(Context& context);
void check_unused(Context& context);
void add_family(Context& context, At at);
FinishingId finishing(Context& context, Name name, Env& env);
std::optional<BatchSize> batch_size(Context& context, std::uint32_t file,
                                    const tree::BatchLine& line, Env& env, Span span,
                                    const Shade* shade = nullptr);  // for `sum of weights`
/// Parts `24 slim tubes of Damson` into size and shade. False where it can't be; said.
bool part_make(Context& context, std::uint32_t file, tree::Make& make, PlanLine& out);
/// A size without overage and holdback.
std::optional<BatchSize> plain_size(Context& context, Span span, const Quantity& value);

template <typename Call>
void each_block(const Context& context, Heading heading, Call call) {
    for (std::uint32_t f = 0; f < context.files.size(); ++f) {
        const auto& blocks = context.files[f].tree.blocks;
        for (std::uint32_t b = 0; b < blocks.size(); ++b)
            if (blocks[b].heading == heading && blocks[b].name) call(At{f, b});
    }
}

/// The lines of a block.
inline std::pair<const tree::Line*, const tree::Line*> lines_of(const Context& context, At at) {
    const tree::Block& block = context.block(at);
    const tree::Line* first = context.file(at.file).lines.data() + block.first;
    return {first, first + block.count};
}

}  // namespace levigate::resolving
