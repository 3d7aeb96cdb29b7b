#include "interpreter/expand/batch.hpp"

namespace levigate {
namespace {

using Amount = std::variant<std::monostate, Mass, Volume>;

/// Containers turned into what they hold; nothing where that is not known.
Amount held(const Formulary& formulary, const BatchSize& size) {
    if (const Mass* mass = std::get_if<Mass>(&size.amount)) return *mass;
    if (const Volume* volume = std::get_if<Volume>(&size.amount)) return *volume;
    const ContainerCount& count = std::get<ContainerCount>(size.amount);
    if (count.container >= formulary.containers.size()) return {};
    const auto& holds = formulary.containers[count.container].holds;
    if (const Mass* mass = std::get_if<Mass>(&holds)) return grams(count.count * in_grams(*mass));
    if (const Volume* volume = std::get_if<Volume>(&holds))
        return millilitres(count.count * in_millilitres(*volume));
    return {};
}

std::optional<Mass> weighed(const Amount& amount, const std::optional<Density>& density) {
    if (const Mass* mass = std::get_if<Mass>(&amount)) return *mass;
    const Volume* volume = std::get_if<Volume>(&amount);
    if (!volume || !density) return std::nullopt;
    return grams(in_millilitres(*volume) * in_grams_per_millilitre(*density));
}

}  // namespace

bool needs_density(const Formulary& formulary, const BatchSize& size) {
    return std::holds_alternative<Volume>(held(formulary, size)) ||
           std::holds_alternative<Volume>(size.holdback);
}

std::optional<Mass> batch_mass(const Formulary& formulary, const BatchSize& size,
                               const std::optional<Density>& density) {
    if (size.broken) return std::nullopt;
    std::optional<Mass> mass = weighed(held(formulary, size), density);
    if (!mass) return std::nullopt;
    if (!as_fraction(size.overage).is_zero()) *mass += size.overage * *mass;
    if (std::holds_alternative<std::monostate>(size.holdback)) return mass;
    std::optional<Mass> more = weighed(size.holdback, density);
    if (!more) return std::nullopt;
    *mass += *more;
    return mass;
}

}  // namespace levigate
