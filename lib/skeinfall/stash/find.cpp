#include "skeinfall/stash/find.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/stash/fields.hpp"

namespace skeinfall::stash {
namespace {

bool holds(std::string_view text, const std::string& wanted) {
    return base::lower(text).find(base::lower(wanted)) != std::string::npos;
}

bool any_text_holds(const Skein& skein, const std::string& wanted) {
    std::vector<std::string_view> texts{skein.id};
    for (const Field& field : fields()) add_texts(field, skein, texts);
    return std::any_of(texts.begin(), texts.end(),
                       [&](std::string_view text) { return holds(text, wanted); });
}

struct OrderWord {
    Order order;
    std::string_view text;
};
constexpr auto order_table = std::to_array<OrderWord>({{Order::added, "added"},
                                                       {Order::id, "id"},
                                                       {Order::yarn, "yarn"},
                                                       {Order::weight, "class"},
                                                       {Order::colour, "colour"},
                                                       {Order::lot, "lot"},
                                                       {Order::length, "length"},
                                                       {Order::grist, "grist"}});

/// What a skein is sorted by: unknown last, then by number, then by text.
struct Key {
    bool unknown = false;
    double number = 0.0;
    std::string text;

    auto operator<=>(const Key&) const = default;
};

Key key_of(const Skein& skein, Order order) {
    switch (order) {
        case Order::added:
            break;
        case Order::id:
            return {false, 0.0, skein.id};
        case Order::yarn:
            return {false, 0.0, base::lower(skein.yarn.name)};
        case Order::weight:
            if (!skein.yarn.weight) return {true, 0.0, {}};
            return {false, static_cast<double>(skein.yarn.weight->number), {}};
        case Order::colour:
            return {skein.colourway.empty(), 0.0, base::lower(skein.colourway)};
        case Order::lot:
            if (skein.shade_group) return {false, 0.0, base::lower(*skein.shade_group)};
            if (skein.dye_lot) return {false, 0.0, base::lower(*skein.dye_lot)};
            return {true, 0.0, {}};
        case Order::length: {
            const auto supply = supply_of(skein);
            if (!supply) return {true, 0.0, {}};
            return {false, -supply->length.value(), {}};
        }
        case Order::grist: {
            const auto grist = yarn::label_grist(skein.yarn.label);
            if (!grist) return {true, 0.0, {}};
            return {false, -grist->centre.value(), {}};
        }
    }
    return {};
}

}  // namespace

bool meets(const Skein& skein, const Wish& wish) {
    if (wish.weight && skein.yarn.weight != wish.weight) return false;
    if (wish.yarn && !holds(skein.yarn.name, *wish.yarn)) return false;
    if (wish.fibre && !yarn::contains(skein.yarn.fibre, *wish.fibre)) return false;
    if (wish.grist_from || wish.grist_to) {
        const auto grist = yarn::label_grist(skein.yarn.label);
        if (!grist || (wish.grist_from && grist->centre < *wish.grist_from) ||
            (wish.grist_to && grist->centre > *wish.grist_to))
            return false;
    }
    if (wish.colour && !holds(skein.colourway, *wish.colour)) return false;
    if (wish.lot) {
        const bool by_lot =
            skein.dye_lot && base::lot_name_key(*skein.dye_lot) == base::lot_name_key(*wish.lot);
        const bool by_group = skein.shade_group && base::same_name(*skein.shade_group, *wish.lot);
        if (!by_lot && !by_group) return false;
    }
    if (wish.text && !any_text_holds(skein, *wish.text)) return false;
    if (wish.set_aside && skein.set_aside.empty() == *wish.set_aside) return false;
    return !wish.part || is_part(skein) == *wish.part;
}

std::optional<Order> parse_order(std::string_view text) {
    const auto* const found =
        std::find_if(order_table.begin(), order_table.end(),
                     [&](const auto& w) { return base::same_word(w.text, text); });
    if (found == order_table.end()) return std::nullopt;
    return found->order;
}

std::vector<std::string> order_words() {
    std::vector<std::string> out;
    out.reserve(order_table.size());
    for (const OrderWord& one : order_table) out.emplace_back(one.text);
    return out;
}

std::vector<Skein> find(std::vector<Skein> skeins, const Wish& wish, Order order) {
    std::vector<std::pair<Key, Skein*>> found;
    found.reserve(skeins.size());
    for (Skein& skein : skeins)
        if (meets(skein, wish)) found.emplace_back(key_of(skein, order), &skein);
    std::stable_sort(found.begin(), found.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Skein> out;
    out.reserve(found.size());
    for (const auto& [key, skein] : found) out.push_back(std::move(*skein));
    return out;
}

std::vector<YarnTotal> totals(const std::vector<Skein>& skeins) {
    std::vector<std::vector<Skein>> groups;
    for (const Skein& skein : skeins) {
        const auto group = std::find_if(groups.begin(), groups.end(), [&](const auto& g) {
            return g.front().yarn == skein.yarn;
        });
        if (group == groups.end())
            groups.push_back({skein});
        else
            group->push_back(skein);
    }
    std::vector<YarnTotal> out;
    out.reserve(groups.size());
    for (const auto& group : groups) {
        const auto unknown =
            std::count_if(group.begin(), group.end(), [](const Skein& s) { return !supply_of(s); });
        out.push_back({group.front().yarn, group.size(), static_cast<std::size_t>(unknown),
                       total(group, false)});
    }
    return out;
}

}  // namespace skeinfall::stash
