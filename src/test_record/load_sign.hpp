#pragma once
#include "crushwright/test_record.hpp"
#include "test_record/table_text.hpp"

namespace crushwright {

/// Turns a record that was written with compression (of a tension test: stretching) negative; adds a remark.
///
/// @throws InputError when the signs of load and displacement do not let this be told.
void turn_signs(const TableText& text, bool compression_is_negative, TestRecord& record);

} // namespace crushwright
