#pragma once
/// \file
/// The two sets of English names in the craft.

namespace skeinfall::yarn {

/// US names, or the names of Britain, Ireland, Australia and New Zealand.
enum class Naming { us, uk };

}  // namespace skeinfall::yarn
