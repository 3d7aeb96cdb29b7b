#include "interpreter/rules/parts.hpp"

#include <algorithm>
#include <string_view>

namespace levigate {

bool covers(const Rule& rule, Sym name) {
    return std::any_of(rule.covers.begin(), rule.covers.end(),
                       [name](const Called& what) { return what.sym == name; });
}

namespace {

constexpr std::string_view nano = " (nano)";

bool is_nano(const Names& names, Sym sym) { return names.folded(sym).ends_with(nano); }

Sym without_nano(const Names& names, Sym sym) {
    std::string_view name = names.folded(sym);
    if (!name.ends_with(nano)) return sym;
    name.remove_suffix(nano.size());
    const Sym plain = names.find_folded(name);
    return plain == no_name ? sym : plain;
}

bool is_number(const Names& names, Sym sym) { return names.folded(sym).starts_with("ci "); }

/// What a part is, without its grain and without what suppliers write behind it in brackets:
/// `Mica (CI 77019)` is Mica, and `CI 77019 (Mica)` is CI 77019.
Sym plain_name(const Names& names, Sym sym) {
    const Sym plain = without_nano(names, sym);
    const std::string_view name = names.folded(plain);
    const std::size_t bracket = name.find(" (");
    if (bracket == name.npos || !name.ends_with(')')) return plain;
    const std::string_view head = name.substr(0, bracket), inside = name.substr(bracket + 2);
    if (!head.starts_with("ci ") && !inside.starts_with("ci ")) return plain;
    const Sym known = names.find_folded(head);
    return known == no_name ? plain : known;
}

/// `CI 77266` in a nano part.
Called as_nano(const Names& names, const Called& index) {
    Called out{index.name + std::string(nano), no_name};
    out.sym = names.find(out.name);
    return out.sym == no_name ? index : out;
}

bool called_by(const Formulary& formulary, const Names& names, Sym index, Sym part) {
    if (part == index) return true;
    return std::any_of(formulary.rules.begin(), formulary.rules.end(), [&](const Rule& rule) {
        return covers(rule, index) && labelled(names, rule, part);
    });
}

/// One that is nano as the number is goes before one that isn't.
MaterialPart* part_for(const Formulary& formulary, const Names& names, const Called& index,
                       std::vector<MaterialPart>& parts) {
    if (parts.size() == 1) {
        // One number can't be called by another.
        MaterialPart& only = parts.front();
        const bool other = is_number(names, only.plain) && is_number(names, index.sym) &&
                           !called_by(formulary, names, without_nano(names, index.sym), only.plain);
        return other ? nullptr : &only;
    }
    const Sym plain = without_nano(names, index.sym);
    MaterialPart* other = nullptr;
    for (MaterialPart& part : parts) {
        if (!called_by(formulary, names, plain, part.plain)) continue;
        if (is_nano(names, part.name.sym) == is_nano(names, index.sym)) return &part;
        if (!other) other = &part;
    }
    return other;
}

/// `label` stands at the start of `name`, and there ends, or goes on to a lake.
bool goes_on_to_lake(std::string_view name, std::string_view label) {
    if (!name.starts_with(label)) return false;
    name.remove_prefix(label.size());
    return name.empty() || (name.front() == ' ' && name.ends_with(" lake"));
}

/// Behind the letters that say what a US colour is certified for. `Ext. D&C` are others.
std::string_view without_letters(std::string_view name) {
    for (const std::string_view letters : {"d&c ", "fd&c "})
        if (name.starts_with(letters)) return name.substr(letters.size());
    return name;
}

/// Together the parts are all of it: none is more than the others leave, and none is less.
void narrow(MaterialParts& out, const Extent& sum) {
    if (sum.least > share(1) || sum.most < share(1)) return;
    for (MaterialPart& part : out.parts) {
        Extent& own = *part.share;
        const Share most = share(1) - (sum.least - own.least);
        const Share least = share(1) - (sum.most - own.most);
        own = {std::max(own.least, least), std::min(own.most, most)};
    }
}

/// Fills in the one share that may be left out, and sums them up.
void settle_shares(MaterialParts& out) {
    MaterialPart* open = nullptr;
    std::size_t lacking = 0;
    Extent sum;
    for (MaterialPart& part : out.parts) {
        if (!part.share) {
            open = &part, ++lacking;
            continue;
        }
        sum.least += part.share->least;
        sum.most += part.share->most;
    }
    if (lacking > 1 || (open && !(sum.least < share(1)))) return;
    if (open) {
        open->share = {Share(), share(1)};
        sum.most += share(1);
    }
    narrow(out, sum);
    out.sum = open ? Extent{share(1), share(1)} : sum;
}

}  // namespace

std::vector<Called> MaterialParts::numbers() const {
    std::vector<Called> out = loose;
    for (const MaterialPart& part : parts)
        out.insert(out.end(), part.indices.begin(), part.indices.end());
    return out;
}

bool goes_by_label(const Names& names, const Rule& rule, Sym part) {
    if (rule.label.empty()) return false;
    const std::string_view label = names.folded(rule.label_sym), name = names.folded(part);
    return goes_on_to_lake(name, label) || goes_on_to_lake(without_letters(name), label);
}

bool labelled(const Names& names, const Rule& rule, Sym part) {
    if (goes_by_label(names, rule, part)) return true;
    if (rule.label.empty()) return false;
    const std::string_view name = without_letters(names.folded(part));
    const std::size_t no = name.find(" no. ");
    if (no == name.npos) return false;
    return goes_on_to_lake(std::string(name).erase(no, 4), names.folded(rule.label_sym));
}

bool is_lake(const Names& names, Sym part) { return names.folded(part).ends_with(" lake"); }

MaterialParts parts_of(const Formulary& formulary, const Names& names, const Material& material) {
    MaterialParts out;
    for (const LabelPart& part : material.label)
        out.parts.push_back({{part.name, part.sym}, plain_name(names, part.sym), part.share, {}});
    if (!out.parts.empty()) settle_shares(out);
    for (const Called& index : material.colour_indices) {
        MaterialPart* part = part_for(formulary, names, index, out.parts);
        const bool grains = part && is_nano(names, part->name.sym) && !is_nano(names, index.sym);
        (part ? part->indices : out.loose).push_back(grains ? as_nano(names, index) : index);
    }
    // A part that is written by its number has it, whether a `colourant` line says so or not.
    for (MaterialPart& part : out.parts)
        if (part.indices.empty() && is_number(names, part.plain)) part.indices.push_back(part.name);
    return out;
}

}  // namespace levigate
