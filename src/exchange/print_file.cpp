#include "crushwright/exchange.hpp"
#include "exchange/print_model.hpp"
#include "exchange/zip_archive.hpp"

namespace crushwright {
namespace {

constexpr const char* content_types =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">\n"
    " <Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>\n"
    " <Default Extension=\"model\" ContentType=\"application/vnd.ms-package.3dmanufacturing-3dmodel+xml\"/>\n"
    "</Types>\n";
constexpr const char* relationships =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">\n"
    " <Relationship Id=\"model\" Target=\"/3D/3dmodel.model\" "
    "Type=\"http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel\"/>\n"
    "</Relationships>\n";

std::string package(std::string model) {
  return zip_archive({{"[Content_Types].xml", content_types},
                      {"_rels/.rels", relationships},
                      {"3D/3dmodel.model", std::move(model)}});
}

} // namespace

std::string write_3mf(const StrutBody& body, const TriangleMesh& skin, const PrintFileText& text) {
  return package(model_of_struts(body, skin, text));
}

std::string write_3mf(const TriangleMesh& mesh, const PrintFileText& text) {
  return package(model_of_mesh(mesh, text));
}

} // namespace crushwright
