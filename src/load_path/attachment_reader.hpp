#pragma once
#include "crushwright/load_path.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads the block `attachment` of a structure; its `bolts` are read elsewhere.
/// @throws InputError at the key, as the next.
AttachmentInput read_attachment(Mapping attachment);

/// Reads the block `rest_of_body` of a body.
RestOfBodyInput read_rest_of_body(Mapping rest);

} // namespace crushwright
