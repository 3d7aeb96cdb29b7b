#include "interpreter/rules/contents.hpp"

namespace levigate {
namespace {

const Exact grams_an_ounce(28'349'523'125, 1'000'000'000);
const Exact millilitres_a_fluid_ounce(295'735'295'625, 10'000'000'000);
const Exact ounces_a_pound = 16;

Exact down(const Exact& value, int places) {
    Exact scale = 1;
    for (int i = 0; i < places; ++i) scale *= 10;
    return (value * scale).floor() / scale;
}

std::string ounce_figure(const Exact& ounces) {
    const Exact two = down(ounces, 2);
    return (two.is_zero() ? down(ounces, 3) : two).decimal(3);
}

std::string metric_figure(const Exact& value) {
    const int places = value < Exact(10) ? 2 : value < Exact(100) ? 1 : 0;
    const Exact figure = down(value, places);
    return (figure.is_zero() ? down(value, 4) : figure).decimal(4);
}

/// What is known of it: a weight, a volume, or both.
std::string content_text(const Region& region, const NetContent& content) {
    const auto both = [&](const std::string& ounces, const std::string& metric) {
        return region.contents_metric ? metric : ounces + " (" + metric + ")";
    };
    std::string out;
    if (content.mass)
        out = (region.contents_metric ? "" : "Net Wt ") +
              both(ounces_text(*content.mass), grams_text(*content.mass));
    if (!content.volume) return out;
    if (!out.empty()) out += ", by volume ";
    return out + both(fluid_ounces_text(*content.volume), millilitres_text(*content.volume));
}

bool reaches(const Region& region, const Exact& content) {
    return !region.contents_from || !(content < in_grams(*region.contents_from));
}

}  // namespace

std::string ounces_text(const Mass& mass) {
    const Exact ounces = in_grams(mass) / grams_an_ounce;
    std::string out = ounce_figure(ounces) + " oz";
    if (ounces < ounces_a_pound) return out;
    const Exact pounds = (ounces / ounces_a_pound).floor();
    const Exact left = ounces - pounds * ounces_a_pound;
    out += " (" + pounds.decimal(0) + " lb";
    const Exact rest = down(left, 2);
    return out + (rest.is_zero() ? "" : " " + rest.decimal(2) + " oz") + ")";
}

std::string grams_text(const Mass& mass) { return metric_figure(in_grams(mass)) + " g"; }

std::string fluid_ounces_text(const Volume& volume) {
    return ounce_figure(in_millilitres(volume) / millilitres_a_fluid_ounce) + " fl oz";
}

std::string millilitres_text(const Volume& volume) {
    return metric_figure(in_millilitres(volume)) + " mL";
}

std::vector<NetContent> net_contents(const Formulary& formulary, const Region& region,
                                     const Product& product, Sym batch) {
    std::vector<NetContent> out;
    for (const Batch& one : formulary.shades[product.shade].batches) {
        if (batch != no_name && one.sym != batch) continue;
        const auto* count = std::get_if<ContainerCount>(&one.size.amount);
        if (one.size.broken || !count || count->container >= formulary.containers.size()) continue;
        const Container& container = formulary.containers[count->container];
        NetContent content;
        content.batch = one.name;
        content.container = container.name;
        if (const Mass* mass = std::get_if<Mass>(&container.holds)) {
            content.mass = *mass;
            content.needed = reaches(region, in_grams(*mass));
        } else if (const Volume* volume = std::get_if<Volume>(&container.holds)) {
            content.volume = *volume;
            if (product.density)
                content.mass =
                    grams(in_millilitres(*volume) * in_grams_per_millilitre(*product.density));
            // Article 19(1)(b) of (EC) 1223/2009 has one number for grams and for millilitres.
            content.needed = reaches(region, in_millilitres(*volume)) ||
                             (content.mass && reaches(region, in_grams(*content.mass)));
        } else {
            continue;
        }
        content.text = content_text(region, content);
        out.push_back(std::move(content));
    }
    return out;
}

}  // namespace levigate
