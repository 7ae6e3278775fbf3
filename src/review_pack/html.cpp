#include "review_pack/html.hpp"

#include "quantities/units.hpp"

#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace crushwright {

std::string escape_html(std::string_view text) {
  std::string safe;
  safe.reserve(text.size());
  for (const char c : text) {
    switch (c) {
    case '&':
      safe += "&amp;";
      break;
    case '<':
      safe += "&lt;";
      break;
    case '>':
      safe += "&gt;";
      break;
    case '"':
      safe += "&quot;";
      break;
    case '\'':
      safe += "&#39;";
      break;
    default:
      safe += static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t' ? ' ' : c;
    }
  }
  return safe;
}

std::string prose_html(std::string_view text) {
  std::string html = escape_html(text);
  for (std::size_t open = html.find('`'); open != std::string::npos; open = html.find('`', open)) {
    const std::size_t close = html.find('`', open + 1);
    if (close == std::string::npos) {
      break;
    }
    html = html.substr(0, open) + "<code>" + html.substr(open + 1, close - open - 1) + "</code>" +
           html.substr(close + 1);
  }
  return html;
}

std::string escape_script_json(std::string_view json) {
  std::string safe;
  safe.reserve(json.size());
  for (std::size_t i = 0; i < json.size(); ++i) {
    const char c = json[i];
    if (c == '<' || c == '>' || c == '&') {
      safe += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    } else if (json.compare(i, 3, "\u2028") == 0 || json.compare(i, 3, "\u2029") == 0) {
      safe += json.compare(i, 3, "\u2028") == 0 ? "\\u2028" : "\\u2029";
      i += 2;
    } else {
      safe += c;
    }
  }
  return safe;
}

std::string element(std::string_view tag, std::string_view inner, std::string_view css_class) {
  if (css_class.empty()) {
    return fmt::format("<{0}>{1}</{0}>", tag, inner);
  }
  return fmt::format("<{0} class=\"{2}\">{1}</{0}>", tag, inner, css_class);
}

std::string table(const std::vector<TableColumn>& columns, const std::vector<std::vector<std::string>>& rows) {
  std::string html = "<div class=\"wide\"><table><thead><tr>";
  for (const TableColumn& column : columns) {
    html +=
        fmt::format("<th scope=\"col\"{}>{}</th>", column.number ? " class=\"n\"" : "", escape_html(column.title));
  }
  html += "</tr></thead><tbody>\n";
  for (const std::vector<std::string>& row : rows) {
    if (row.size() == 1 && columns.size() > 1) {
      html += fmt::format("<tr class=\"note\"><td colspan=\"{}\">{}</td></tr>\n", columns.size(), row[0]);
      continue;
    }
    html += "<tr>";
    for (std::size_t c = 0; c < row.size(); ++c) {
      html += fmt::format("<td{}>{}</td>", columns.at(c).number ? " class=\"n\"" : "", row[c]);
    }
    html += "</tr>\n";
  }
  return html + "</tbody></table></div>\n";
}

std::string word_badge(Word word) {
  return fmt::format("<span class=\"word {0}\">{0}</span>", name_of(word));
}

std::string standing_text(const Source& source) {
  if (!source.standing) {
    return source.text.empty() ? "" : "standing not stated";
  }
  switch (*source.standing) {
  case Standing::read:
    return "read";
  case Standing::memory:
    return "from memory";
  case Standing::derived:
    return "derived";
  case Standing::common_practice:
    return "common practice";
  }
  return {};
}

std::string source_html(const Source& source) {
  if (source.text.empty() && !source.standing) {
    return {};
  }
  if (source.text.empty()) {
    return element("span", standing_text(source), "quiet");
  }
  return fmt::format("{} <span class=\"quiet\">({})</span>", escape_html(source.text), standing_text(source));
}

std::string value_html(double si_value, Dimension dimension) {
  // Elastic moduli read better in GPa than as five figures of MPa.
  if (dimension == Dimension::stress && std::abs(si_value) >= 1e10) {
    return fmt::format("{:.4g} GPa", si_value * 1e-9);
  }
  std::string text = show(si_value, dimension);
  for (const auto& [plain, raised] : {std::pair{"^2", "\u00b2"}, std::pair{"^3", "\u00b3"}}) {
    if (const std::size_t at = text.find(plain); at != std::string::npos) {
      text.replace(at, 2, raised);
    }
  }
  return escape_html(text);
}

std::string margin_text(double margin) {
  const double percent = 100 * margin;
  const int decimals = std::abs(percent) < 9.95 ? 1 : 0;
  std::string text = fmt::format("{:.{}f}", std::abs(percent), decimals);
  const bool zero = text.find_first_not_of("0.") == std::string::npos;
  return fmt::format("{}{}\u00a0%", zero ? "" : percent < 0 ? "\u2212" : "+", text);
}

} // namespace crushwright
