#include "skeinfall/cover/shelf.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <unordered_map>
#include <utility>

#include "skeinfall/base/name.hpp"
#include "skeinfall/yarn/grist_match.hpp"

namespace skeinfall::cover {

constexpr int no_class = -1;  // among the classes of the index

struct Shelf::Index {
    bool names_known = false;
    std::unordered_map<std::string, Places> by_name;  ///< by base::name_key()

    /// Of one class, or of none.
    struct Class {
        Places any_grist;  ///< no label tells it, or it is a part that nobody weighed
        std::vector<std::pair<double, std::uint32_t>> by_grist;  ///< logarithm of it, in order
    };
    bool classes_known = false;
    std::map<int, Class> by_class;
};

namespace {

const std::vector<stash::Skein>& no_skeins() {
    static const std::vector<stash::Skein> none;
    return none;
}

}  // namespace

Shelf::Shelf() : Shelf(no_skeins()) {}

Shelf::Shelf(const std::vector<stash::Skein>& stash)
    : stash_(&stash), index_(std::make_shared<Index>()) {}

const Shelf::Places& Shelf::named(const std::string& name) const {
    Index& index = *index_;
    if (!std::exchange(index.names_known, true))
        for (std::size_t at = 0; at < stash_->size(); ++at)
            index.by_name[base::name_key((*stash_)[at].yarn.name)].push_back(
                static_cast<std::uint32_t>(at));
    static const Places none;
    const auto found = index.by_name.find(base::name_key(name));
    return found == index.by_name.end() ? none : found->second;
}

Shelf::Places Shelf::of_class_and_grist(const project::Role& role) const {
    Index& index = *index_;
    if (!std::exchange(index.classes_known, true)) {
        for (std::size_t at = 0; at < stash_->size(); ++at) {
            const stash::Skein& skein = (*stash_)[at];
            Index::Class& of =
                index.by_class[skein.yarn.weight ? skein.yarn.weight->number : no_class];
            const auto grist = yarn::label_grist(skein.yarn.label);
            const auto place = static_cast<std::uint32_t>(at);
            if (grist && !stash::never_weighed_part(skein))
                of.by_grist.emplace_back(std::log(grist->centre.value()), place);
            else
                of.any_grist.push_back(place);
        }
        for (auto& [number, of] : index.by_class) std::sort(of.by_grist.begin(), of.by_grist.end());
    }
    constexpr double noise = 1e-6;
    Places out;
    for (const auto& [number, of] : index.by_class) {
        if (role.weight && number != role.weight->number && number != no_class) continue;
        auto from = of.by_grist.begin();
        auto to = of.by_grist.end();
        if (role.grist) {
            const double middle = std::log(role.grist->value.value());
            const double apart = yarn::swatch_grist.value() + noise;
            from = std::lower_bound(from, to, std::pair(middle - apart, std::uint32_t{0}));
            to = std::upper_bound(from, to, std::pair(middle + apart, ~std::uint32_t{0}));
        }
        out.insert(out.end(), of.any_grist.begin(), of.any_grist.end());
        for (; from != to; ++from) out.push_back(from->second);
    }
    std::sort(out.begin(), out.end());
    return out;
}

std::vector<const stash::Skein*> Shelf::of_yarn(const std::string& name) const {
    std::vector<const stash::Skein*> out;
    for (const std::uint32_t place : named(name)) out.push_back(&(*stash_)[place]);
    return out;
}

std::vector<const stash::Skein*> Shelf::that_may_serve(const project::Role& role) const {
    const Places places = role.name.empty() ? of_class_and_grist(role) : named(role.name);
    std::vector<const stash::Skein*> out;
    for (const std::uint32_t place : places) {
        const stash::Skein& skein = (*stash_)[place];
        if (role.colour.empty() || base::same_name(role.colour, skein.colourway))
            out.push_back(&skein);
    }
    return out;
}

}  // namespace skeinfall::cover
