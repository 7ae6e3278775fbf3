#include "crushwright/load_path.hpp"
#include "load_path/element_curve.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace crushwright {
namespace {

/// A curve with what it is; the pointer is set when all curves stand where they stay.
struct Named {
  SeriesElement element;
  CrushCurve curve;
};

void add(std::vector<Named>& found, const std::string& id, ElementKind kind, CrushCurve curve) {
  Named& named = found.emplace_back();
  named.element.id = id;
  named.element.kind = kind;
  named.curve = std::move(curve);
}

void keep(std::vector<Named>&& found, std::vector<CrushCurve>& curves, std::vector<SeriesElement>& elements) {
  curves.reserve(found.size());
  for (Named& each : found)
    curves.push_back(std::move(each.curve));
  for (std::size_t i = 0; i < found.size(); ++i) {
    elements.push_back(found[i].element);
    elements.back().curve = &curves[i];
  }
}

std::vector<Named> imprints(const FaceInput& face, const StructurePlace& structure, SeriesEnd end) {
  std::vector<Named> found;
  for (const FaceBlock& block : face.blocks) {
    if (block.spread != Spread::imprint)
      continue;
    const Window window = window_of(face, block);
    if (bearing_on(structure, 0, window).share > 0) // one that the tip passes by is in the stagger
      add(found, block.id, ElementKind::face_block, imprint_curve(block, window, structure, end));
  }
  return found;
}

std::vector<Named> plates(const FaceInput& face, SeriesEnd end) {
  std::vector<Named> found;
  for (const FaceBlock& block : face.blocks)
    if (block.spread == Spread::plate)
      add(found, block.id, ElementKind::face_block, plate_curve(block, window_of(face, block), end));
  return found;
}

} // namespace

SeriesCurves series_curves(const FaceInput* face, const std::vector<StructurePlace>& structures,
                           const std::vector<Contact>& contacts,
                           const std::vector<const AttachmentInput*>& attachments, const RestOfBodyInput* rest,
                           SeriesEnd end) {
  SeriesCurves series;
  series.per_structure.resize(structures.size());
  series.elements.resize(structures.size());
  for (std::size_t i = 0; i < structures.size(); ++i) {
    std::vector<Named> found;
    if (face && contacts[i].struck)
      found = imprints(*face, structures[i], end);
    if (attachments[i])
      add(found, "attachment", ElementKind::attachment, attachment_curve(*attachments[i], end));
    keep(std::move(found), series.per_structure[i], series.elements[i]);
  }
  std::vector<Named> common;
  if (face)
    common = plates(*face, end);
  if (rest)
    add(common, "rest_of_body", ElementKind::rest_of_body, rest_of_body_curve(*rest, end));
  keep(std::move(common), series.common_curves, series.common);
  return series;
}

} // namespace crushwright
