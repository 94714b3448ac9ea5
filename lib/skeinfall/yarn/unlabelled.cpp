#include "skeinfall/yarn/unlabelled.hpp"

#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::yarn {
namespace {

void read_grist(const Clues& clues, Unlabelled& out) {
    if (clues.sample) {
        const SampleGrist sample = grist_of(*clues.sample);
        if (const auto* grist = std::get_if<measure::Estimate<units::Grist>>(&sample))
            out.grist = *grist;
        else
            out.too_light = std::get<TooLight>(sample);
    } else if (clues.balance) {
        out.grist = grist_by_balance(clues.balance->strand, clues.balance->against);
    } else if (clues.known) {
        out.grist = measure::Estimate<units::Grist>{
            *clues.known,
            measure::within(units::Grist(*clues.known * label_grist_half_width.value()))};
    }
}

}  // namespace

bool Unlabelled::answered() const {
    if (too_light) return false;
    return grist || ranking.decided() ||
           (!fibres.empty() && fibres.front().confidence == Confidence::likely);
}

Unlabelled identify(const Clues& clues) {
    Unlabelled out;
    read_grist(clues, out);
    if (clues.have) {
        if (out.grist) out.left = length_left(*out.grist, *clues.have);
        if (out.too_light) {
            const units::Length sample = clues.sample->length;
            const units::Mass have = measure::net_mass(*clues.have).centre;
            out.left_if_guessed = LengthBounds{have / out.too_light->most * sample, std::nullopt};
            if (out.too_light->least.value() > 0.0)
                out.left_if_guessed->most = have / out.too_light->least * sample;
        }
    }
    Evidence evidence = clues.evidence;
    evidence.grist = out.grist;
    out.ranking = rank_classes(evidence);
    if (!clues.burn.empty()) out.fibres = fibre_guesses(clues.burn);
    return out;
}

}  // namespace skeinfall::yarn
