#pragma once
// What a product's markets let on lips. An unknown colourant is never let pass; where a region
// leaves it open, the finding says who is to be asked.

#include <map>
#include <string>
#include <vector>

#include "grammar/finding.hpp"
#include "interpreter/expand/product.hpp"
#include "interpreter/rules/remarks.hpp"

namespace levigate {

/// Judges product after product. What is the same in many of them is said once.
class LipJudge {
public:
    /// `markets`: regions in place of those that shades and the file name; empty: theirs. Where
    /// nobody names one, every region that has rules is asked, and only errors are said: what may
    /// hurt is not passed over, and what would be tedious waits until a region is chosen.
    LipJudge(const Formulary& formulary, const Names& names, std::vector<Called> markets);

    void add(const Product& product);
    /// In the order in which the things were met.
    Findings findings() const;

private:
    struct Key {
        Code code;
        Sym region = no_name;
        std::uint32_t rule = nothing;
        IngredientId material = no_ingredient;
        Sym index = no_name;
        auto operator<=>(const Key&) const = default;
    };
    struct Shown {
        ShadeId shade = nothing;
        std::uint32_t version = 0;
        FinishingId finishing = nothing;
        bool first = false;  ///< of all its products: then it is the shade itself that shows it
    };
    struct Said {
        Finding finding;           ///< its message without the products
        std::vector<Shown> shown;  ///< the first product of each shade that shows it
        Exact worst;               ///< over a limit: by how much, at most
    };
    /// Of one material, reckoned once: what is to be said, and what counts towards a limit.
    struct Told {
        bool known = false;
        std::vector<std::size_t> said;  ///< indices in said_
        std::vector<Claim> limits;
        std::vector<std::uint32_t> heavy;  ///< rules of which it holds more than they let
    };
    struct Regional {
        Called name;
        bool chosen = false;  ///< somebody named it: then all is said, else errors
        RuleBook book;
        std::vector<Told> told;  ///< by IngredientId
    };
    struct Sum {
        std::uint32_t rule = 0;
        Share all;
    };

    const std::vector<Called>& markets_of(const Shade& shade, bool& chosen) const;
    Regional& regional(const Called& region, bool chosen);
    const Told& told(Regional& regional, const ProductMaterial& one);
    std::size_t place(const Key& key, const Finding& finding);
    void show(std::size_t said, const Product& product);
    void judge(const Product& product, Regional& regional);
    void judge_limit(const Product& product, Regional& regional, const Sum& sum);
    void say_unknown(const Product& product, const Called& region);

    const Formulary& formulary_;
    const Names& names_;
    std::vector<Called> asked_, all_;
    std::vector<Regional> regionals_;
    std::map<Key, std::size_t> places_;
    std::vector<Said> said_;
    ShadeId last_ = nothing;  ///< the shade of the product before
    bool first_ = false;      ///< the product at hand is the first of its shade
    std::vector<Sum> sums_;   ///< kept from one product to the next, to save allocations
};

}  // namespace levigate
