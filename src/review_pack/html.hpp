#pragma once
#include "crushwright/quantity.hpp"
#include "crushwright/verdict.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// Text made safe inside an element or a quoted attribute; control characters that HTML forbids become spaces.
std::string escape_html(std::string_view text);

/// The same for a sentence that puts keys between backticks: these become code elements. A single backtick stays.
std::string prose_html(std::string_view text);

/// JSON made safe inside a script element: "<", ">", "&" and the line separators of Unicode become \u escapes.
std::string escape_script_json(std::string_view json);

/// <tag class="...">inner</tag>; `inner` is HTML already.
std::string element(std::string_view tag, std::string_view inner, std::string_view css_class = {});

/// One row of table cells, HTML already.
struct TableColumn {
  std::string title;
  bool number = false; ///< right-aligned figures
};

/// A table that scrolls sideways where it does not fit. Cells are HTML already; a row with one cell spans the table.
std::string table(const std::vector<TableColumn>& columns, const std::vector<std::vector<std::string>>& rows);

/// The word spelled out in a frame whose line differs by word, so that it does not rest on colour.
std::string word_badge(Word word);

/// "read", "from memory", "derived", "common practice", "standing not stated"; empty without a source.
std::string standing_text(const Source& source);

/// The source's text with its standing; empty where there is none.
std::string source_html(const Source& source);

/// SI value in its display unit, escaped.
std::string value_html(double si_value, Dimension dimension);

/// "+12 %", "−3.4 %": a margin, with its sign always shown.
std::string margin_text(double margin);

} // namespace crushwright
