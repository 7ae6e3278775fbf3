#include "exchange/print_file_reader.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <stdexcept>

// Its headers want these names from the platform.
#include "Model/COM/NMR_DLLInterfaces.h"

namespace crushwright::print_file_reader {
namespace {

using namespace NMR;

void require(LIB3MFRESULT result, const char* call) {
  if (result != 0)
    throw std::runtime_error(fmt::format("lib3mf: {} failed with {:#x}", call, static_cast<std::uint32_t>(result)));
}
#define REQUIRE_CALL(call) require((call), #call)

ReadObject object_of(PLib3MFModelResource* resource) {
  ReadObject object;
  ULONG length = 0;
  REQUIRE_CALL(lib3mf_object_getnameutf8(resource, nullptr, 0, &length));
  std::string name(length + 1, '\0');
  REQUIRE_CALL(lib3mf_object_getnameutf8(resource, name.data(), static_cast<ULONG>(name.size()), &length));
  object.name = name.c_str();
  DWORD points = 0, triangles = 0, beams = 0;
  REQUIRE_CALL(lib3mf_meshobject_getvertexcount(resource, &points));
  for (DWORD i = 0; i < points; ++i) {
    MODELMESHVERTEX vertex;
    REQUIRE_CALL(lib3mf_meshobject_getvertex(resource, i, &vertex));
    object.points.push_back({vertex.m_fPosition[0], vertex.m_fPosition[1], vertex.m_fPosition[2]});
  }
  REQUIRE_CALL(lib3mf_meshobject_gettrianglecount(resource, &triangles));
  object.triangles = triangles;
  REQUIRE_CALL(lib3mf_meshobject_getbeamcount(resource, &beams));
  for (DWORD i = 0; i < beams; ++i) {
    MODELMESHBEAM beam;
    REQUIRE_CALL(lib3mf_meshobject_getbeam(resource, i, &beam));
    object.beams.push_back({{beam.m_nIndices[0], beam.m_nIndices[1]},
                            {beam.m_dRadius[0], beam.m_dRadius[1]},
                            beam.m_eCapMode[0] == MODELBEAMLATTICECAPMODE_SPHERE &&
                                beam.m_eCapMode[1] == MODELBEAMLATTICECAPMODE_SPHERE});
  }
  return object;
}

std::size_t build_items_of(PLib3MFModel* model) {
  PLib3MFModelBuildItemIterator* items = nullptr;
  REQUIRE_CALL(lib3mf_model_getbuilditems(model, &items));
  std::size_t count = 0;
  BOOL more = 0;
  for (REQUIRE_CALL(lib3mf_builditemiterator_movenext(items, &more)); more != 0;
       REQUIRE_CALL(lib3mf_builditemiterator_movenext(items, &more)))
    ++count;
  lib3mf_release(items);
  return count;
}

} // namespace

ReadFile read_print_file(const std::string& bytes) {
  PLib3MFModel* model = nullptr;
  PLib3MFModelReader* reader = nullptr;
  REQUIRE_CALL(lib3mf_createmodel(&model));
  REQUIRE_CALL(lib3mf_model_queryreader(model, "3mf", &reader));
  REQUIRE_CALL(lib3mf_reader_setstrictmodeactive(reader, 1));
  std::string copy = bytes; // the call takes a buffer that it could change
  REQUIRE_CALL(lib3mf_reader_readfrombuffer(reader, reinterpret_cast<BYTE*>(copy.data()), copy.size()));
  ReadFile file;
  DWORD value = 0;
  REQUIRE_CALL(lib3mf_reader_getwarningcount(reader, &value));
  file.warnings = value;
  REQUIRE_CALL(lib3mf_model_getunit(model, &value));
  file.in_millimetres = value == MODELUNIT_MILLIMETER;
  file.build_items = build_items_of(model);
  PLib3MFModelResourceIterator* objects = nullptr;
  REQUIRE_CALL(lib3mf_model_getmeshobjects(model, &objects));
  BOOL more = 0;
  for (REQUIRE_CALL(lib3mf_resourceiterator_movenext(objects, &more)); more != 0;
       REQUIRE_CALL(lib3mf_resourceiterator_movenext(objects, &more))) {
    PLib3MFModelResource* resource = nullptr;
    REQUIRE_CALL(lib3mf_resourceiterator_getcurrent(objects, &resource));
    file.objects.push_back(object_of(resource));
    lib3mf_release(resource);
  }
  lib3mf_release(objects);
  lib3mf_release(reader);
  lib3mf_release(model);
  return file;
}

} // namespace crushwright::print_file_reader
