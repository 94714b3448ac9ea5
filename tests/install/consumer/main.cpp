// A program of someone else's that uses the installed library: will two skeins do?
#include <iostream>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/units/parse.hpp"

int main() {
    using namespace skeinfall;
    stash::Skein skein;
    skein.id = "a";
    skein.yarn.name = "Cedar Lane";
    skein.yarn.label.length = {"170 yd", units::parse_length("170 yd").value()};
    skein.yarn.label.mass = {"3.5 oz", units::parse_mass("3.5 oz").value()};
    skein.dye_lot = "81";
    stash::Skein other = skein;
    other.id = "b";

    project::Role role;
    role.id = "MC";
    const auto need = need::stated_need(300.0 * units::yard);
    const auto answer = cover::cover_role(role, need, {skein, other}, {});
    std::cout << cover::name_of(answer.verdict) << "\n";
    return answer.verdict == cover::Verdict::covered ? 0 : 1;
}
