#include "skeinfall/notation/detail/label_reader.hpp"

namespace skeinfall::notation {

Label label_of(const std::vector<Token>& tokens, std::optional<Fault>& fault) {
    return LabelReader(tokens, fault).run();
}

}  // namespace skeinfall::notation
