#pragma once
// The one list of the language's words. The reader, the reference, completion and the editor
// files all come from this table.

#include <cstdint>
#include <span>
#include <string_view>

namespace levigate {

/// What opens a block, and what a block's line may be.
enum class Heading : std::uint8_t {
    none,
    language,
    market,
    use,
    unit,
    rate,
    material,
    blend,
    shade,
    variant,
    finish,
    family,
    container,
    balance,
    shelf,
    region,
    rule,
    plan,
    edition,
    record,
};

enum class Form : std::uint8_t {
    ingredient,  // AMOUNT NAME
    set,
    add,
    without,
    swap,
    scale,
    rebalance,
    fresh,   // edits
    dilute,  // how a line is weighed, not what it is
    let,
    variants,
    finishes,
    batch,
    weigh_on,
    market,
    expect,
    step,
    note,
    swatch,
    role,
    label,
    colourant,
    contains,
    density,
    bulk,
    price,
    hazard,
    also_called,
    from,
    vary,
    between,
    name,
    columns,
    row,
    holds,
    have,
    reads,
    up_to,
    least,
    error,
    repeatability,
    covers,
    lips,
    counts,
    certified,
    held_in,
    except,
    ask_of,
    named,
    condition,
    unconfirmed,
    source,
    title,
    colourants,
    range,
    minor,
    contents,
    on,
    make,
    sealed,
    number,
    date,
    shades,
    digest,
    planned,
    weighed,
    by,
    code,
    filled,
    deviation,
    said,
    made,
    reading,
    commit,
    formula,
};

struct HeadingWord {
    std::string_view word;
    Heading heading;
    std::string_view example;  ///< a whole line that is right
};

struct FormWord {
    std::string_view word;  ///< one or two words, single blank
    Form form;
    std::string_view example;  ///< a whole line that is right; shown where one is wrong
    std::uint32_t where;       ///< bit set of the headings that may hold it
};

constexpr std::uint32_t in(Heading heading) { return 1u << static_cast<unsigned>(heading); }

std::span<const HeadingWord> heading_words();
std::span<const FormWord> form_words();

std::string_view word(Heading heading);
/// The entry of a form; `ingredient` has one too, with an empty word.
const FormWord& entry(Form form);

}  // namespace levigate
