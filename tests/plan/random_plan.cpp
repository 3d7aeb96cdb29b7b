#include "tests/plan/random_plan.hpp"

namespace levigate::testing {
namespace {

using Parts = std::map<std::string, Exact>;  // grams of raw material in a gram

class Writer {
public:
    explicit Writer(std::mt19937_64& random) : random_(random) {}

    RandomPlan operator()() {
        materials_ = between(2, 6);
        for (int i = 0; i < materials_; ++i) add_material(i);
        out_.page += "container pot\n holds 5 g\n price 3 USD per 7 pieces\n";
        blends_ = between(0, 3);
        for (int i = 0; i < blends_; ++i) add_blend(i);
        const int batches = between(1, 4);
        for (int i = 0; i < batches; ++i) add_shade(i);
        add_shelf();
        out_.page += "plan Autumn\n on 2027-06-15\n";
        for (int i = 0; i < batches; ++i) out_.page += " make full of S" + std::to_string(i) + "\n";
        return std::move(out_);
    }

private:
    int between(int low, int high) {
        return low + static_cast<int>(random_() % static_cast<std::uint64_t>(high - low + 1));
    }
    static std::string material(int i) { return "m" + std::to_string(i); }
    static std::string blend(int i) { return "b" + std::to_string(i); }

    void add_material(int i) {
        out_.page += "material " + material(i) + "\n";
        known_[material(i)] = {{material(i), 1}};
        if (between(1, 4) == 1) return;
        const int pack = between(1, 60);
        out_.page += " price " + std::to_string(between(0, 900)) + " USD per " +
                     std::to_string(pack) + " g\n";
        out_.packs[material(i)] = pack;
    }

    /// Parts of some of what is known already; the first at least, so that there is one.
    Parts mix(const std::vector<std::pair<std::string, int>>& lines) {
        int all = 0;
        for (const auto& line : lines) all += line.second;
        Parts out;
        for (const auto& [what, parts] : lines)
            for (const auto& [raw, share] : known_[what]) out[raw] += share * Exact(parts, all);
        return out;
    }
    std::vector<std::pair<std::string, int>> lines(int blends) {
        std::vector<std::pair<std::string, int>> out{{material(0), between(1, 40)}};
        for (int i = 1; i < materials_; ++i)
            if (between(0, 1) == 1) out.emplace_back(material(i), between(1, 40));
        for (int i = 0; i < blends; ++i)
            if (between(0, 1) == 1) out.emplace_back(blend(i), between(1, 40));
        return out;
    }
    std::string written(const std::vector<std::pair<std::string, int>>& lines) {
        std::string out;
        for (const auto& [what, parts] : lines)
            out += " " + std::to_string(parts) + " parts " + what + "\n";
        return out;
    }

    void add_blend(int i) {
        const auto made = lines(i);
        out_.page += "blend " + blend(i) + "\n" + written(made);
        const Parts inside = mix(made);
        known_[blend(i)] = inside;
    }

    void add_shade(int i) {
        const auto made = lines(blends_);
        out_.page += "shade S" + std::to_string(i) + "\n" + written(made);
        Exact whole = between(20, 400);
        if (between(0, 1) == 1) {
            const int pots = between(4, 80), over = between(0, 20), held = between(0, 5);
            whole = pots * 5 * (1 + Exact(over, 100)) + held;
            out_.pots_needed += pots;
            out_.page += " batch full " + std::to_string(pots) + " pots, overage " +
                         std::to_string(over) + " %, holdback " + std::to_string(held) + " g\n";
        } else {
            out_.page += " batch full " + whole.fraction() + " g\n";
        }
        out_.needs.emplace_back();
        for (const auto& [raw, share] : mix(made)) out_.needs.back()[raw] = share * whole;
    }

    void add_shelf() {
        out_.page += "shelf\n";
        for (int i = between(0, 2 * materials_); i > 0; --i) {
            LotSeen lot{material(between(0, materials_ - 1)), "L" + std::to_string(i),
                        between(0, 120), between(0, 12)};
            if (between(0, 2) == 0) lot.grams += Exact(between(1, 999), 1000);  // between two steps
            out_.page +=
                " have " + lot.grams.decimal(3) + " g " + lot.material + ", lot " + lot.lot;
            if (lot.month > 0)
                out_.page += std::string(", best before 2027-") + (lot.month < 10 ? "0" : "") +
                             std::to_string(lot.month);
            out_.page += "\n";
            out_.lots.push_back(lot);
        }
        out_.pots_there = between(0, 200);
        out_.page += " have " + std::to_string(out_.pots_there) + " pots\n";
    }

    std::mt19937_64& random_;
    RandomPlan out_;
    std::map<std::string, Parts> known_;
    int materials_ = 0, blends_ = 0;
};

}  // namespace

RandomPlan random_plan(std::mt19937_64& random) { return Writer(random)(); }

}  // namespace levigate::testing
