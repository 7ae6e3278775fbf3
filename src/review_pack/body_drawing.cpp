#include "review_pack/body_drawing.hpp"

#include "review_pack/body_check.hpp"
#include "review_pack/body_colouring.hpp"
#include "review_pack/body_figure.hpp"
#include "review_pack/body_image.hpp"
#include "review_pack/html.hpp"
#include "review_pack/turned_body.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

namespace crushwright {

namespace {

// Classes carry the pictures' own name, because a style inside a page holds for the whole page.
constexpr const char* style =
    "<style>.body-pictures{margin:.8em 0 1.4em}.body-pictures .pair{display:grid;gap:.4em 1.4em;align-items:start;"
    "grid-template-columns:repeat(auto-fit,minmax(min(100%,340px),1fr))}"
    ".body-pictures .pair svg.drawing{width:100%!important}"
    ".body-pictures .arrow-head{fill:var(--quiet)}.body-pictures .turn img{display:block;width:100%;max-width:440px}"
    ".body-pictures .turn img[hidden]{display:none}.body-pictures .turn input{width:min(100%,440px)}"
    ".body-pictures>input{margin:0 .3em 0 1em;vertical-align:-.1em}"
    ".body-pictures>.ask-order:not(:checked)~.by-order{display:none}"
    ".body-pictures>.ask-order:checked~.by-density{display:none}"
    "@media print{.body-pictures>input,.body-pictures>label,.body-pictures>.choice{display:none}"
    ".body-pictures .turn{display:none}.body-pictures>.by-density,.body-pictures>.by-order{display:block!important}"
    ".body-pictures>.by-density~.by-order .pair{display:none}.body-pictures .pair{grid-template-columns:1fr 1fr}"
    ".body-pictures svg.drawing{max-height:none}.body-pictures .legend svg.drawing{max-height:14mm}}</style>\n";

constexpr int oblique_pixels = 880;
constexpr int cut_pixels = 1440;
constexpr double azimuth = -35, elevation = 24; ///< of the oblique view [degree]

std::string figure(const std::string& drawing, const std::string& caption) {
  return fmt::format("<figure>{}<figcaption>{}</figcaption></figure>\n", drawing, caption);
}

/// The pictures before they have colours.
struct Rasters {
  CellView oblique = cell_view(azimuth, elevation);
  CellView square_on{{1, 0, 0}, {0, 0, 1}, {0, -1, 0}};
  BodyBox box;
  std::optional<BodyRaster> outside, lattice, cut;
  double cut_y = 0;
};

Rasters rasters_of(const BodyDrawing& body, const BodyShape& shape) {
  Rasters all;
  all.box = box_of(shape);
  const RasterFrame frame = frame_about(shape, all.oblique, oblique_pixels);
  if (shape.surface != nullptr) {
    all.outside = body_raster(shape, BodySight::outside, all.oblique, frame);
  }
  if (shape.struts != nullptr || shape.walls != nullptr) {
    all.lattice = body_raster(shape, BodySight::lattice, all.oblique, frame);
  }
  const bool crosses = all.box.low[1] < body.axis_y && body.axis_y < all.box.high[1];
  all.cut_y = crosses ? body.axis_y : 0.5 * (all.box.low[1] + all.box.high[1]);
  all.cut =
      body_raster(shape, BodySight::cut, all.square_on, frame_about(shape, all.square_on, cut_pixels), -all.cut_y);
  return all;
}

std::string cut_caption(const Rasters& rasters, const BodyShape& shape) {
  std::string text = fmt::format("Cut along the vertical plane y = {:.4g} mm, seen from the right; to scale.",
                                 1e3 * rasters.cut_y + 0.0);
  if (shape.surface != nullptr && shape.skin_thickness > 0) {
    const bool thinner = shape.skin_thickness < rasters.cut->frame.pixel;
    text += fmt::format(" Skin {:.3g} mm{}.", 1e3 * shape.skin_thickness,
                        thinner ? ", drawn thicker than it is so that it is seen" : "");
  }
  if (rasters.lattice) {
    text += " Cut metal is flat in colour; what lies farther behind the cut is darker.";
  }
  return text;
}

std::string coloured(const BodyDrawing& body, const BodyShape& shape, const Rasters& rasters,
                     const Colouring* colouring, bool with_turned) {
  const StationColours colours = colours_along(body.layers, colouring);
  const auto png = [&](const BodyRaster& raster) { return png_bytes(body_image(raster, colours, 32)); };
  std::string pair;
  const auto oblique = [&](const std::optional<BodyRaster>& raster, const char* what, const char* caption) {
    if (raster) {
      pair += figure(oblique_figure(png(*raster), raster->frame, rasters.oblique, rasters.box,
                                    fmt::format("{} of {}", what, body.name)),
                     caption);
    }
  };
  oblique(rasters.outside, "Outer surface", "Outer surface; x to the attachment, y left, z up.");
  oblique(rasters.lattice, "Lattice",
          rasters.outside ? "The lattice inside, the outer surface as an outline." : "The lattice.");
  std::vector<RulerRow> rows;
  if (colouring != nullptr) {
    rows.push_back(values_along(body.layers, *colouring, ruler_marks(rasters.box, 8)));
  }
  std::string html = element("div", pair, "pair") + "\n";
  html += figure(cut_figure(png(*rasters.cut), rasters.cut->frame, rasters.box, rows, "Cut through " + body.name),
                 cut_caption(rasters, shape));
  if (colouring != nullptr) {
    html += legend_html(body.layers, *colouring, shape);
  }
  if (with_turned && body.turned && rasters.lattice) {
    html += turned_lattice_html(shape, body.name, colours, azimuth, elevation);
  }
  return fmt::format("<div class=\"{}\">{}</div>\n", colouring != nullptr ? colouring->css_class : "plain", html);
}

/// A name as an HTML id: letters and digits stay, the rest becomes numbers.
std::string id_of(const std::string& name) {
  std::string id = "body-";
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    id += plain ? std::string(1, c) : fmt::format("_{:02x}", static_cast<unsigned char>(c));
  }
  return id;
}

std::string choice(const std::string& name) {
  return fmt::format("<span class=\"choice\">Coloured by</span>"
                     "<input type=\"radio\" class=\"ask-density\" name=\"{0}\" id=\"{0}-density\" checked>"
                     "<label for=\"{0}-density\">relative density</label>"
                     "<input type=\"radio\" class=\"ask-order\" name=\"{0}\" id=\"{0}-order\">"
                     "<label for=\"{0}-order\">crush order</label>\n",
                     id_of(name));
}

} // namespace

std::string body_pictures_html(const BodyDrawing& body) {
  const BodyShape shape = checked_shape(body);
  if (shape.surface == nullptr && shape.struts == nullptr && shape.walls == nullptr) {
    return fmt::format(
        "<p class=\"quiet\">{}: no pictures, because the body has neither a surface nor a lattice.</p>\n",
        escape_html(body.name));
  }
  const Rasters rasters = rasters_of(body, shape);
  const std::optional<Colouring> density = by_density(body.layers), order = by_order(body.layers);
  std::string html = std::string("<div class=\"body-pictures\">") + style;
  if (density && order) {
    html += choice(body.name);
  }
  if (density) {
    html += coloured(body, shape, rasters, &*density, true);
  }
  if (order) {
    html += coloured(body, shape, rasters, &*order, !density);
  }
  if (!density && !order) {
    html += coloured(body, shape, rasters, nullptr, true);
  }
  return html + "</div>\n";
}

} // namespace crushwright
