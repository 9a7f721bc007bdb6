#include "write/font_subset.h"

#include <hb-ot.h>
#include <hb-subset.h>

#include <cstdint>
#include <memory>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

template <auto destroy>
struct Destroyed {
  template <class T>
  void operator()(T* object) const {
    destroy(object);
  }
};
using Blob = std::unique_ptr<hb_blob_t, Destroyed<hb_blob_destroy>>;
using HbFace = std::unique_ptr<hb_face_t, Destroyed<hb_face_destroy>>;
using Font = std::unique_ptr<hb_font_t, Destroyed<hb_font_destroy>>;
using Input = std::unique_ptr<hb_subset_input_t, Destroyed<hb_subset_input_destroy>>;
using Plan = std::unique_ptr<hb_subset_plan_t, Destroyed<hb_subset_plan_destroy>>;

[[noreturn]] void no_font() { throw WorldError{"font", "is not a TrueType font that can be embedded"}; }

/// What one of HarfBuzz's functions made that give null where they fail.
template <class Owner>
Owner made(typename Owner::pointer object) {
  if (object == nullptr) no_font();
  return Owner{object};
}

std::string_view bytes_of(const Blob& blob) {
  unsigned size = 0;
  const char* bytes = hb_blob_get_data(blob.get(), &size);
  return {bytes, size};
}

/// The tables that a PDF reader needs (ISO 32000-1, 9.9). Only these are kept: the document says which
/// character is which glyph, and holds the font's name and measures.
constexpr std::array needed{"glyf", "head", "hhea", "hmtx", "loca", "maxp"};

Blob table_of(const HbFace& face, const char* tag) {
  return Blob{hb_face_reference_table(face.get(), hb_tag_from_string(tag, -1))};
}

/// The glyphs of the characters and the parts that they are put together from.
Plan plan_of(const HbFace& face, std::u16string_view characters) {
  const Input input = made<Input>(hb_subset_input_create_or_fail());
  for (const char16_t character : characters) hb_set_add(hb_subset_input_unicode_set(input.get()), character);
  hb_set_t* dropped = hb_subset_input_set(input.get(), HB_SUBSET_SETS_DROP_TABLE_TAG);
  hb_set_clear(dropped);
  for (const char* tag : needed) hb_set_add(dropped, hb_tag_from_string(tag, -1));
  hb_set_invert(dropped);
  hb_subset_input_set_flags(input.get(), HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_NOTDEF_OUTLINE);
  return made<Plan>(hb_subset_plan_create_or_fail(face.get(), input.get()));
}

std::string name_of(const HbFace& face) {
  std::array<char, 64> name{};  // the OpenType specification allows 63 letters
  unsigned size = name.size();
  hb_ot_name_get_utf8(face.get(), HB_OT_NAME_ID_POSTSCRIPT_NAME, HB_LANGUAGE_INVALID, &size, name.data());
  if (size == 0) no_font();
  return {name.data(), size};
}

/// The box that the font's head states (OpenType 1.9, head: xMin and on, most significant byte first).
std::array<int, 4> box_of(const HbFace& face) {
  const Blob head = table_of(face, "head");
  constexpr std::size_t place = 36;
  const std::string_view bytes = bytes_of(head);
  if (bytes.size() < place + 8) no_font();
  const auto number = [&](std::size_t at) {
    const auto byte = [&](std::size_t n) { return static_cast<unsigned char>(bytes[n]); };
    return static_cast<std::int16_t>(byte(at) << 8 | byte(at + 1));
  };
  return {number(place), number(place + 2), number(place + 4), number(place + 6)};
}

}  // namespace

FontSubset font_subset(std::string_view bytes, std::u16string_view characters) {
  const Blob file{
      hb_blob_create(bytes.data(), static_cast<unsigned>(bytes.size()), HB_MEMORY_MODE_READONLY, nullptr, nullptr)};
  const HbFace face{hb_face_create(file.get(), 0)};
  for (const char* tag : needed) {
    if (bytes_of(table_of(face, tag)).empty()) no_font();
  }
  const Font font{hb_font_create(face.get())};  // in the font's own units
  const int em = static_cast<int>(hb_face_get_upem(face.get()));
  const auto measure = [&](hb_ot_metrics_tag_t tag) {
    hb_position_t position = 0;
    hb_ot_metrics_get_position(font.get(), tag, &position);
    return position * 1000 / em;
  };
  FontSubset subset{.name = name_of(face),
                    .ascent = measure(HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER),
                    .descent = measure(HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER),
                    .cap_height = measure(HB_OT_METRICS_TAG_CAP_HEIGHT),
                    .box = box_of(face)};
  for (int& side : subset.box) side = side * 1000 / em;

  const Plan plan = plan_of(face, characters);
  const hb_map_t* numbers = hb_subset_plan_old_to_new_glyph_mapping(plan.get());
  for (const char16_t character : characters) {
    hb_codepoint_t glyph = 0;
    hb_font_get_nominal_glyph(font.get(), character, &glyph);
    subset.glyphs.push_back({hb_map_get(numbers, glyph), hb_font_get_glyph_h_advance(font.get(), glyph) * 1000 / em});
  }
  const HbFace cut = made<HbFace>(hb_subset_plan_execute_or_fail(plan.get()));
  const Blob cut_file{hb_face_reference_blob(cut.get())};
  subset.file = bytes_of(cut_file);
  return subset;
}

}  // namespace blankwright
