#include "tests/properties/write.hpp"

#include <algorithm>
#include <cctype>

#include "tests/properties/random.hpp"

namespace levigate::testing {

std::string number_text(const Number& number) {
    using boost::multiprecision::cpp_int;
    cpp_int over = 1;
    for (int places = 0; places <= 6; ++places, over *= 10) {
        const Number scaled = number * Number(over);
        if (denominator(scaled) != 1) continue;
        std::string digits = numerator(scaled).str();
        if (places == 0) return digits;
        while (digits.size() <= static_cast<std::size_t>(places)) digits.insert(0, "0");
        return digits.insert(digits.size() - static_cast<std::size_t>(places), ".");
    }
    return number.str();
}

std::string share_text(const Number& share) { return "(" + Number(share * 100).str() + " %)"; }

namespace {

/// A density, or what a container holds: some of them with ends, which change no sheet's own
/// figures.
std::string figure_text(const Number& number, const std::string& measure) {
    const std::string text = number_text(number) + " " + measure;
    const auto which = static_cast<int>(numerator(number) % 4);
    if (which == 1) return text + " ± 4 %";
    return which == 2 ? text + " ± " + number_text(number / 10) + " " + measure : text;
}

struct Pen {
    const Book& book;
    Random random;
    bool noisy;

    bool now_and_then(int percent) { return noisy && random.chance(percent); }

    std::string name(const std::string& plain) {
        if (now_and_then(4)) return "\"" + plain + "\"";
        std::string text;
        const bool loud = now_and_then(4), wide = now_and_then(4);
        for (const char c : plain) {
            const auto byte = static_cast<unsigned char>(c);
            text += loud && byte < 0x80 ? static_cast<char>(std::toupper(byte)) : c;
            if (wide && c == ' ') text += "\xC2\xA0";  // a no-break blank more
        }
        return text;
    }
    std::string name(Id id) {
        if (id == none) return "";
        const Thing& thing = book.things[id];
        if (!thing.alias.empty() && now_and_then(25)) return name(thing.alias);
        return name(thing.name);
    }
    std::string ref(const Ref& ref) {
        if (ref.kind == Ref::Kind::bulk) return "the bulk";
        if (ref.kind == Ref::Kind::role) return "the " + ref.role + (now_and_then(15) ? "s" : "");
        return name(ref.thing);
    }
    std::string line(const Line& line) {
        const Amount& amount = line.amount;
        const std::string what =
            line.name_hole.empty() ? name(line.what) : "{" + line.name_hole + "}";
        if (amount.kind == Amount::Kind::rest) return "rest  " + what;
        if (amount.kind == Amount::Kind::as_much)
            return amount.text + "as much " + what + " as " + ref(amount.ref);
        if (amount.kind == Amount::Kind::enough)
            return "enough " + what + " to bring " + ref(amount.ref) + " to " + amount.text;
        return amount.text + "  " + what;
    }
    std::string expect(const Expect& expect) {
        const bool whole = expect.measure == Expect::Measure::whole;
        std::string text = whole ? "the whole" : name(expect.thing);
        if (expect.measure == Expect::Measure::role) text = "the " + expect.role;
        const auto bound = [&](const Number& value) {
            return whole ? "(" + value.str() + " g)" : share_text(value);
        };
        static const char* const words[] = {"at most", "at least", "under", "over", "is"};
        if (expect.compare == Expect::Compare::between)
            return text + " between " + bound(expect.low) + " and " + bound(expect.high);
        return text + " " + words[static_cast<int>(expect.compare)] + " " + bound(expect.low);
    }
    std::string edit(const Edit& edit) {
        switch (edit.kind) {
            case Edit::Kind::set: return "set  " + line(edit.line);
            case Edit::Kind::add: return "add  " + line(edit.line);
            case Edit::Kind::without: return "without  " + name(edit.line.what);
            case Edit::Kind::swap:
                return "swap  " + name(edit.line.what) + " for " + name(edit.other);
            case Edit::Kind::scale: return "scale  " + name(edit.line.what) + " by " + edit.text;
            case Edit::Kind::scale_role: return "scale  the " + edit.role + " by " + edit.text;
        }
        return "";
    }
};

void add(TextBlock& block, std::string text, bool ingredient = false) {
    block.lines.push_back({std::move(text), ingredient});
}

void write_body(Pen& pen, const Body& body, TextBlock& block) {
    for (const Let& let : body.lets)
        add(block,
            "let {" + let.hole + "} = " + (let.thing == none ? let.text : pen.name(let.thing)));
    for (const Line& line : body.lines) add(block, pen.line(line), true);
    for (const Edit& edit : body.edits) add(block, pen.edit(edit));
    if (body.rebalance) add(block, "rebalance");
    for (const Step& step : body.steps) {
        const std::string number = std::to_string(step.serial) + ".";
        if (step.hole.empty())
            add(block, "step  Work {" + pen.book.things[step.thing].name + "} in, " + number);
        else
            add(block, "step  Keep {" + step.hole + "} for " + number);
    }
}

std::string heading(Pen& pen, const char* word, const Thing& thing) {
    const bool bare = thing.name.find('%') == std::string::npos;
    std::string text = std::string(word) + " " + (bare ? thing.name : '"' + thing.name + '"');
    if (thing.body.like != none) text += " like " + pen.name(pen.book.things[thing.body.like].name);
    return text;
}

template <typename T>
std::string list(const std::vector<T>& all, const std::vector<int>& chosen) {
    std::string text;
    for (int i : chosen) text += (text.empty() ? "" : ", ") + all[static_cast<std::size_t>(i)].name;
    return text;
}

TextBlock material(Pen&, const Thing& thing) {
    TextBlock block{"material " + thing.name, {}};
    if (!thing.alias.empty()) add(block, "also called  " + thing.alias);
    if (!thing.role.empty()) add(block, "role  " + thing.role);
    if (thing.density) add(block, "density  " + figure_text(*thing.density, "g/mL"));
    if (thing.bulk) add(block, "bulk  " + figure_text(*thing.bulk, "g/mL"));
    return block;
}

TextBlock blend(Pen& pen, const Thing& thing) {
    TextBlock block{heading(pen, "blend", thing), {}};
    const bool inherits = thing.body.like != none;
    if (!thing.role.empty() && !inherits) add(block, "role  " + thing.role);
    if (thing.density) add(block, "density  " + figure_text(*thing.density, "g/mL"));
    if (thing.bulk) add(block, "bulk  " + figure_text(*thing.bulk, "g/mL"));
    write_body(pen, thing.body, block);
    return block;
}

TextBlock shade(Pen& pen, const Thing& thing) {
    TextBlock block{heading(pen, "shade", thing), {}};
    const Properties& own = thing.properties;
    if (own.fresh_batches) add(block, "fresh batches");
    if (own.fresh_finishes) add(block, "fresh finishes");
    if (own.fresh_variants) add(block, "fresh variants");
    if (own.fresh_expects) add(block, "fresh expects");
    write_body(pen, thing.body, block);
    if (own.variants) add(block, "variants  " + list(pen.book.variants, *own.variants));
    if (own.finishes) add(block, "finishes  " + list(pen.book.finishes, *own.finishes));
    for (const Batch& batch : own.batches) add(block, "batch  " + batch.name + "  " + batch.text);
    for (const Expect& expect : own.expects) add(block, "expect  " + pen.expect(expect));
    if (own.balance >= 0)
        add(block, "weigh on  " + pen.book.balances[static_cast<std::size_t>(own.balance)].name);
    return block;
}

std::string cell(Pen& pen, const Let& let) {
    return let.thing == none ? let.text : pen.book.things[let.thing].name;
}

TextBlock family(Pen& pen, const Thing& thing) {
    const Family& family = thing.family;
    TextBlock block{"family " + thing.name, {}};
    if (family.kind == Family::Kind::between) {
        add(block, "between  " + pen.book.things[family.from].name + " and " +
                       pen.book.things[family.to].name + " in " +
                       std::to_string(family.members.size()) + " steps");
    } else {
        add(block, "from  " + pen.book.things[family.from].name);
    }
    if (family.kind == Family::Kind::vary) {
        std::string text = "vary {" + family.columns[0] + "} over ";
        for (std::size_t i = 0; i < family.members.size(); ++i)
            text += (i == 0 ? "" : ", ") + cell(pen, family.members[i].lets[0]);
        add(block, text);
    }
    if (family.kind == Family::Kind::table) {
        std::string text = "columns  name";
        for (const std::string& hole : family.columns) text += " | {" + hole + "}";
        add(block, text);
        for (const Family::Member& member : family.members) {
            text = "row  " + member.name;
            for (const Let& let : member.lets) text += " | " + cell(pen, let);
            add(block, text);
        }
    }
    if (!family.pattern.empty()) add(block, "name  " + family.pattern);
    return block;
}

TextBlock thing_block(Pen& pen, const Thing& thing) {
    switch (thing.kind) {
        case Thing::Kind::material: return material(pen, thing);
        case Thing::Kind::blend: return blend(pen, thing);
        case Thing::Kind::shade: return shade(pen, thing);
        case Thing::Kind::family: return family(pen, thing);
    }
    return {};
}

void noise(Pen& pen, std::vector<TextBlock>& blocks) {
    for (TextBlock& block : blocks) {
        for (TextLine& line : block.lines) {
            if (line.ingredient && pen.now_and_then(3)) line.text = "• " + line.text;
            if (pen.now_and_then(4)) line.text += "   # weighed twice";
            if (!pen.now_and_then(15)) line.text = "    " + line.text;
        }
        if (pen.now_and_then(3)) block.lines.push_back({"# a remark: 5 % of nothing", false});
    }
}

}  // namespace

std::vector<TextBlock> write_blocks(const Book& book, std::uint64_t noise_seed) {
    Pen pen{book, Random(noise_seed), noise_seed != 0};
    std::vector<TextBlock> blocks;
    for (Id id : book.order)
        if (!book.things[id].library) blocks.push_back(thing_block(pen, book.things[id]));
    for (const Variant& variant : book.variants) {
        if (variant.hidden) continue;
        blocks.push_back({"variant " + variant.name, {}});
        write_body(pen, variant.body, blocks.back());
    }
    for (const Finish& finish : book.finishes) {
        if (finish.library) continue;
        blocks.push_back({"finish " + finish.name, {}});
        for (const Line& line : finish.additions) add(blocks.back(), "add  " + pen.line(line));
    }
    for (const Container& container : book.containers)
        blocks.push_back(
            {"container " + container.name,
             {{"holds  " + figure_text(container.holds, container.volume ? "mL" : "g")}}});
    for (const Balance& balance : book.balances)
        blocks.push_back({"balance " + balance.name, {{"reads  " + balance.text}}});
    if (book.unit) blocks.push_back({"unit scoop = 0.15 mL", {}});
    noise(pen, blocks);
    return blocks;
}

std::string join(const std::vector<TextBlock>& blocks) {
    std::string text;
    for (const TextBlock& block : blocks) {
        text += block.heading + "\n";
        for (const TextLine& line : block.lines) text += line.text + "\n";
        text += "\n";
    }
    return text;
}

std::string write(const Book& book, std::uint64_t noise) { return join(write_blocks(book, noise)); }

}  // namespace levigate::testing
