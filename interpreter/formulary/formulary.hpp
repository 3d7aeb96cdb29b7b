#pragma once
// The formulary: everything that the files say, looked up, edited and evaluated. Plain structs in
// flat tables; nothing here points back into the tree. What was broken stays as a part that is
// marked so, and later phases pass it over in silence, so that one cause gives one message.

#include <array>
#include <optional>
#include <string>
#include <unordered_map>
#include <variant>
#include <vector>

#include "grammar/names.hpp"
#include "grammar/source.hpp"
#include "grammar/span.hpp"
#include "interpreter/formulary/formula.hpp"
#include "interpreter/formulary/origin.hpp"
#include "interpreter/measure/date.hpp"
#include "interpreter/measure/quantities.hpp"
#include "interpreter/measure/quantity.hpp"

namespace levigate {

using MaterialId = std::uint32_t;
using MixId = std::uint32_t;
using ShadeId = std::uint32_t;
using FinishId = std::uint32_t;
using FinishingId = std::uint32_t;
using ContainerId = std::uint32_t;
using BalanceId = std::uint32_t;
using TextId = std::uint32_t;
inline constexpr std::uint32_t nothing = 0xFFFFFFFFu;

/// How much of a role a mix holds, 1 being all of it.
struct RoleShare {
    Sym role = no_name;
    Share share;
};

struct Ingredient {
    enum class Kind : std::uint8_t { material, blend, shade } kind = Kind::material;
    std::string name;  ///< as its own block writes it
    Sym sym = no_name;
    Sym role = no_name;
    std::optional<Density> density;  ///< stated
    std::optional<Density> bulk;     ///< stated: grams of loose powder a millilitre
    std::uint32_t index = nothing;   ///< MaterialId, or MixId of a blend or a shade
    Span span;                       ///< the name in its heading
    bool sealed = false;             ///< a blend whose amounts `share` doesn't give away
    std::optional<Share> within;     ///< … and the narrowest interval that it may give, if stated
    bool damaged = false;            ///< a line of its block was lost, or its formula is broken
};

/// How much more or less the densities of an ingredient may be, in g/mL; 0 where none is stated.
struct Tolerance {
    Exact density, bulk;
};

/// A name that stands for no block: of the ingredient list, of a substance, a colour index number.
struct Called {
    std::string name;  ///< as written
    Sym sym = no_name;
};

/// A share that is known to lie between two; the same twice where it is known outright.
struct Extent {
    Share least, most;

    bool open() const { return !(least == most); }
    bool operator==(const Extent&) const = default;
};

/// Part of a material: what the ingredient list calls it, or a substance that rules count.
struct LabelPart {
    std::string name;
    Sym sym = no_name;
    std::optional<Extent> share;
};

struct Price {
    Quantity amount;               ///< money per mass, per volume or per count
    std::optional<Quantity> pack;  ///< what stands behind `per`: what is bought at once
    Span span;
    bool is_private = false;
};

/// What one of a currency comes to in another, on a day.
struct Rate {
    std::uint32_t from = 0, into = 0;  ///< ISO 4217 tags
    Exact factor;                      ///< `into` for one `from`
    std::string date;                  ///< as written: 2026-10-01
    Span span;
};

struct Swatch {
    std::array<Exact, 3> lab;  ///< CIE Lab, for the light D50
    Share at;                  ///< how much of it was in what was spread; 1 where nothing is said
    IngredientId in = no_ingredient;
    Span span;
    bool is_private = false;
};

struct Material {
    IngredientId self = no_ingredient;
    std::vector<LabelPart> label;
    std::vector<Called> colour_indices;
    Span colourant_span;              ///< the line that names them
    std::optional<Share> strength;    ///< colour in a lake
    std::vector<LabelPart> contains;  ///< substances that it holds; each has its share
    std::string certified;            ///< the certified lot in hand: "lot AB1234"
    std::optional<Price> price;
    bool price_lost = false;  ///< one is written, and is no price: said
    bool powder = false, flammable = false;
    std::vector<Swatch> swatches;
    std::vector<TextId> notes;
    bool library = false;
};

/// A name thinned in a base so that a little of it can be weighed. It stands for no block and in no
/// formula, only in bowls.
struct Dilution {
    IngredientId self = no_ingredient;  ///< a blend whose mix holds `what`, then `base`
    IngredientId what = no_ingredient, base = no_ingredient;
    Share strength;  ///< of `what` in it: above 0, below 1
};

/// A `dilute` line: what it names is weighed as a dilution. What a formula holds stays the same.
struct Diluted {
    std::uint32_t dilution = nothing;  ///< in Formulary::dilutions
    Span span;
};

/// A blend, or a shade's bulk as written: what can stand as an ingredient and has a bowl.
struct Mix {
    IngredientId self = no_ingredient;
    Formula formula;
    std::vector<RoleShare> roles;  ///< by the rule of `as much`, all the way down
    std::vector<TextId> steps, notes;
    std::vector<Diluted> dilutions;
    Formula weighed;                   ///< as its bowl is weighed; empty where that is `formula`
    std::uint32_t dilution = nothing;  ///< which, where it is one
};

/// `step` and `note` texts, with what they name looked up.
struct TextPiece {
    enum class Kind : std::uint8_t { words, ingredient } kind = Kind::words;
    std::string words;                        ///< literal text, or a value already written out
    IngredientId ingredient = no_ingredient;  ///< printed as name and grams
    Span span;
};
struct Text {
    std::vector<TextPiece> pieces;
    Span span;
    bool is_private = false;
};

struct Finish {
    std::string name;
    Sym sym = no_name;
    Span span;
    std::vector<TextId> steps, notes;
    bool library = false;
};

/// A finish as one shade takes it: its holes filled from the shade. Shared where it has none.
struct Finishing {
    FinishId finish = nothing;
    std::vector<Addition> additions;
    std::vector<TextId> steps, notes;
    bool broken = false;
};

struct Container {
    std::string name;
    Sym sym = no_name;
    std::variant<std::monostate, Mass, Volume> holds;
    std::optional<Price> price = {};  ///< money per count
    Span span = {};
    Exact holds_by = {};  ///< how much more or less, in g or mL; 0 where none is stated
};

struct Balance {
    std::string name;
    Sym sym = no_name;
    Mass step;
    int places = 2;  ///< decimal places that the step needs
    std::optional<Mass> up_to, least;
    Span span;
    bool damaged = false;
    std::optional<Share> error = {};         ///< of what is weighed, that is taken as good enough
    std::optional<Mass> repeatability = {};  ///< standard deviation of ten weighings
    Mass reads_by;  ///< how much more or less it may read; 0 where none is stated
};

/// So much of a material or a container on a shelf, of one lot.
struct Stock {
    IngredientId material = no_ingredient;
    ContainerId container = nothing;
    Exact amount;            ///< grams, or pieces
    bool estimated = false;  ///< came from a volume
    Called lot;              ///< nameless where none is written
    std::optional<Date> best_before;
    Span span;
};

struct ContainerCount {
    ContainerId container = nothing;
    Exact count;
};

/// How much is to be made. `amount` comes to the finished product.
struct BatchSize {
    std::variant<Mass, Volume, ContainerCount> amount;
    Share overage;                                        ///< 0 where none
    std::variant<std::monostate, Mass, Volume> holdback;  ///< stays behind in the bowl
    Span span;
    bool broken = false;
};

struct Batch {
    std::string name;
    Sym sym = no_name;
    BatchSize size;
};

struct Expectation {
    enum class Measure : std::uint8_t { ingredient, role, density, whole, cost, cost_per };
    enum class Compare : std::uint8_t { at_most, at_least, under, over, is, between };
    Measure measure = Measure::ingredient;
    IngredientId ingredient = no_ingredient;
    Sym role = no_name;
    ContainerId container = nothing;
    Compare compare = Compare::at_most;
    Quantity low, high;   ///< `low` alone save for `between`
    std::string wording;  ///< the line as a person reads it, without `expect`
    Span span;
    Span measure_span;
};

/// A shade as written, or under one of its variants.
struct Version {
    std::string variant;  ///< empty: as written
    Sym sym = no_name;
    Formula formula;
    std::vector<TextId> steps, notes;
    std::vector<Diluted> dilutions;
    bool broken = false;  ///< said already
};

struct ShadeFinish {
    Sym sym = no_name;
    FinishingId finishing = nothing;  ///< `nothing` where there is no such finish (said already)
};

struct Shade {
    std::string name;
    Sym sym = no_name;
    Span span;             ///< the name in its heading, or the family's
    bool own = false;      ///< of FILE itself: its sheets come out
    bool member = false;   ///< of a family
    Called family;         ///< which; nameless for any other shade
    bool damaged = false;  ///< a line of its block was lost
    bool broken = false;   ///< not even the shade as written could be resolved; said already
    IngredientId self = no_ingredient;  ///< where it stands as an ingredient somewhere
    std::vector<Version> versions;      ///< [0] as written, then its variants in written order
    std::vector<ShadeFinish> finishes;
    std::vector<Batch> batches;
    std::vector<Expectation> expects;
    std::vector<Called> markets;   ///< regions that it is sold in; empty: those of the file
    std::vector<Swatch> swatches;  ///< measured on it as written and as made; not inherited
    BalanceId balance = nothing;
    bool balance_lost = false;  ///< it names one that isn't there; said already
};

/// What a region lets a colourant or another substance be used for on lips.
struct Rule {
    Called region;
    std::string name;
    std::vector<Called> covers;
    std::string label;  ///< what the region's ingredient list calls it; empty: as the material does
    Sym label_sym = no_name;
    enum class Lips : std::uint8_t {
        yes,
        no,
        at_most,
        ask,     ///< passes, but somebody must be asked
        stop,    ///< neither passed nor called illegal: for a safety assessor
        filler,  ///< no colourant here, an ingredient like others
        silent,  ///< the rule says nothing about lips
    } lips = Lips::silent;
    std::optional<Share> limit;
    bool counts_colour = false;        ///< a lake counts by its strength
    bool certified = false;            ///< needs a certified lot
    std::vector<LabelPart> held_in;    ///< how much of it a part of a material holds
    std::vector<Called> except;        ///< parts and colourants that don't count
    std::vector<Called> ask_of;        ///< roles whose materials must say how much they hold
    std::optional<Share> named_above;  ///< must stand in the ingredient list above this share
    std::vector<std::string> conditions;
    std::string unconfirmed;  ///< what of it was not seen in a text
    std::string source;
    Span span;
    bool library = false;
    bool damaged = false;   ///< a line of its block was lost; said
    bool replaces = false;  ///< a person's own, in place of the library's of this name
};

/// How a region's ingredient list is written.
struct Region {
    Called name;
    std::string title;
    bool by_number = false;  ///< colourants by their colour index numbers
    std::string range_before = "May contain: ", range_after;  ///< around what only some shades hold
    Share minor = share(Exact(1, 100));  ///< ingredients of so little may stand in any order
    bool minor_below = false;            ///< below it, not at it
    std::optional<Mass> contents_from;   ///< packs that hold less need not state it
    bool contents_metric = false;        ///< in grams alone, not in ounces too
    bool damaged = false;                ///< no list is made by it: said already
    std::vector<std::string> conditions;
    std::string unconfirmed, source;
    Span span;
};

struct PlanLine {
    ShadeId shade = nothing;
    Sym batch = no_name;  ///< or `size`
    std::optional<BatchSize> size;
    Sym variant = no_name, finish = no_name;
    Span span;
};
/// What a file says of itself where it goes out to others.
struct Edition {
    std::string title;
    Exact number;             ///< 0: none is stated
    std::string date;         ///< "2026-10-01", or empty
    std::vector<Sym> shades;  ///< that go out; empty: all of FILE's own
    std::string digest;  ///< as it is written, "sha256 …"; empty where `share` hasn't been at work
    std::vector<TextId> notes;
    std::optional<bool> unaltered;  ///< since `share` wrote it; none where there is no digest
    Span span, digest_span;
};

struct Plan {
    std::string name;
    Sym sym = no_name;
    std::optional<Date> on;
    std::vector<PlanLine> lines;
    Span span;
};

struct Formulary {
    std::vector<Ingredient> ingredients;
    std::vector<Material> materials;
    std::vector<Mix> mixes;
    std::vector<Dilution> dilutions;
    std::vector<Shade> shades;  ///< in written order; a family's members where it stands
    std::vector<Finish> finishes;
    std::vector<Finishing> finishings;
    std::vector<Container> containers;
    std::vector<Balance> balances;
    std::vector<Stock> shelf;  ///< of all files, in written order
    std::vector<Rate> rates;
    std::vector<Rule> rules;
    std::vector<Region> regions;
    std::vector<Called> markets;  ///< of FILE, for shades that name none
    std::vector<Plan> plans;
    std::optional<Edition> edition;  ///< of FILE itself
    std::vector<Text> texts;
    std::vector<Origin> origins;
    std::vector<Interpolation> interpolations;
    std::vector<Rebalancing> rebalancings;
    std::unordered_map<IngredientId, Tolerance> tolerances;  ///< of the few that state any
    std::unordered_map<Sym, IngredientId> called;            ///< other names of materials
    std::vector<std::string> role_names;  ///< by Sym: the role as first written, else empty
    BalanceId only_balance = nothing;     ///< FILE's, else that of its files
    std::vector<BalanceId> own_balances;
    SourceId file = no_source;
    bool has_ends = false;  ///< some density, bulk or content is stated with `±`

    const std::string& name(IngredientId id) const { return ingredients[id].name; }
    Tolerance tolerance(IngredientId id) const {
        const auto found = tolerances.find(id);
        return found == tolerances.end() ? Tolerance{} : found->second;
    }
};

}  // namespace levigate
