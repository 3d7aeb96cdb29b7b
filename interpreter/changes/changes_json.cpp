#include <nlohmann/json.hpp>

#include "interpreter/changes/changes_document.hpp"
#include "interpreter/render/money_json.hpp"

namespace levigate {
namespace {

using Json = nlohmann::ordered_json;

Json or_null(const std::string& text) { return text.empty() ? Json() : Json(text); }

std::string_view turn_word(Turn turn) {
    switch (turn) {
        case Turn::added: return "added";
        case Turn::gone: return "gone";
        case Turn::changed: return "changed";
        case Turn::renamed: return "renamed";
    }
    return {};
}

std::string_view by_word(Cause::By by) {
    switch (by) {
        case Cause::By::itself: return "itself";
        case Cause::By::like: return "like";
        case Cause::By::from: return "from";
        case Cause::By::inside: return "ingredient";
        case Cause::By::variant: return "variant";
        case Cause::By::finish: return "finish";
        case Cause::By::unit: return "unit";
        case Cause::By::container: return "container";
        case Cause::By::balance: return "balance";
        case Cause::By::rules: return "rules";
        case Cause::By::rate: return "rate";
    }
    return {};
}

Json holds(const std::optional<Verdict>& verdict) {
    if (!verdict || *verdict == Verdict::unknown) return nullptr;
    return *verdict == Verdict::holds;
}

Json both_json(const std::string& before, const std::string& now) {
    return {{"before", or_null(before)}, {"now", or_null(now)}};
}

Json block_json(const BlockChange& block) {
    Json out;
    out["kind"] = block.kind;
    out["name"] = block.name;
    out["was"] = or_null(block.was);
    out["file"] = block.file;
    out["turn"] = turn_word(block.turn);
    out["concealed"] = false;  // the key was there
    Json& lines = out["lines"] = Json::array();
    for (const LineChange& line : block.lines)
        lines.push_back({{"turn", turn_word(line.turn)},
                         {"what", line.label},
                         {"before", or_null(line.before)},
                         {"now", or_null(line.now)}});
    return out;
}

Json row_json(const ProductEffect& product, const RowEffect& row) {
    Json out;
    out["bowl"] = or_null(row.bowl);
    out["ingredient"] = row.ingredient;
    out["percent"] = both_json(row.percent_before, row.percent_now);
    Json& grams = out["grams"] = Json::array();
    for (std::size_t i = 0; i < product.batches.size(); ++i)
        grams.push_back({{"batch", product.batches[i].name},
                         {"before", or_null(row.grams_before[i])},
                         {"now", or_null(row.grams_now[i])}});
    return out;
}

Json product_json(const ProductEffect& product) {
    Json out;
    out["turn"] = turn_word(product.turn);
    out["variant"] = or_null(product.variant);
    out["finish"] = or_null(product.finish);
    Json& batches = out["batches"] = Json::array();
    for (const BatchEffect& batch : product.batches)
        batches.push_back({{"batch", batch.name},
                           {"before", or_null(batch.total_before)},
                           {"now", or_null(batch.total_now)}});
    Json& lines = out["lines"] = Json::array();
    for (const RowEffect& row : product.rows) lines.push_back(row_json(product, row));
    return out;
}

Json cost_json(const std::optional<CostSeen>& cost) {
    if (!cost) return nullptr;
    Json out;
    out["costs"] = purse_json(cost->sum);
    out["complete"] = cost->complete();
    out["filled"] = Json();
    if (!cost->container.empty())
        out["filled"] = {{"container", cost->container}, {"each", purse_json(cost->each)}};
    out["lacking"] = cost->lacking;
    return out;
}

Json shade_json(const ShadeEffect& shade) {
    Json out;
    out["shade"] = shade.name;
    out["family"] = or_null(shade.family);
    out["file"] = shade.file;
    out["turn"] = turn_word(shade.turn);
    out["concealed"] = false;
    Json& causes = out["causes"] = Json::array();
    for (const Cause& cause : shade.causes)
        causes.push_back({{"by", by_word(cause.by)},
                          {"name", cause.name},
                          {"how", cause.how},
                          {"via", or_null(cause.via)}});
    Json& products = out["products"] = Json::array();
    for (const ProductEffect& product : shade.products) products.push_back(product_json(product));
    Json& labels = out["labels"] = Json::array();
    for (const LabelEffect& label : shade.labels)
        labels.push_back({{"region", label.region},
                          {"variant", or_null(label.variant)},
                          {"finish", or_null(label.finish)},
                          {"before", or_null(label.before)},
                          {"now", or_null(label.now)}});
    Json& costs = out["costs"] = Json::array();
    for (const CostEffect& one : shade.costs)
        costs.push_back({{"variant", or_null(one.variant)},
                         {"finish", or_null(one.finish)},
                         {"batch", one.batch},
                         {"before", cost_json(one.before)},
                         {"now", cost_json(one.now)}});
    Json& expects = out["expectations"] = Json::array();
    for (const ExpectEffect& one : shade.expects)
        expects.push_back(
            {{"expects", one.wording}, {"before", holds(one.before)}, {"now", holds(one.now)}});
    return out;
}

}  // namespace

std::string changes_json(const Changes& changes, const std::vector<FoundIn>& findings) {
    Json out;
    out["format"] = "levigate changes 1";
    out["before"] = changes.before;
    out["now"] = changes.now;
    Json& edits = out["edits"] = Json::array();
    for (const BlockChange& block : changes.blocks) edits.push_back(block_json(block));
    Json& shades = out["shades"] = Json::array();
    for (const ShadeEffect& shade : changes.shades) shades.push_back(shade_json(shade));
    Json& lips = out["lips"] = Json::array();
    for (const LipEffect& lip : changes.lips)
        lips.push_back({{"turn", lip.gone ? "gone" : "added"},
                        {"code", row_of(lip.code).name},
                        {"message", or_null(lip.message)}});
    if (!changes.remarks.empty()) {
        Json& remarks = out["remarks"] = Json::array();
        for (const LineChange& one : changes.remarks)
            remarks.push_back({{"turn", turn_word(one.turn)},
                               {"remark", one.turn == Turn::added ? one.now : one.before}});
    }
    if (!changes.reworded.empty()) out["reworded"] = changes.reworded;
    if (changes.reordered) out["reordered"] = true;
    out["findings"] = findings_json(findings);
    return out.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace levigate
