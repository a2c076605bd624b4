#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "desk/shelf.h"
#include "forms/form.h"
#include "judge/examine.h"
#include "layout/layout.h"
#include "repair/provenance.h"

namespace rtcmend {

/// A further dump of the same chip.
struct Reread {
  std::string name;  ///< for messages
  Image image;
};

/// What is known beforehand about a dump.
struct ReadingOrder {
  std::optional<Layout> layout;  ///< to read it by; nothing = the one it names, or that its bytes
                                 ///< point to
  std::vector<Reread> again;     ///< the same chip, read once more or oftener
  std::optional<Image> before;   ///< an earlier dump of the same machine
};

/// A dump on the desk: how it was read, by which layout, and what is to be thought of it as it was
/// read. Nothing here changes when the image is changed afterwards.
struct Opened {
  std::string name;  ///< for messages and headings
  Dump dump;
  std::shared_ptr<const Layout> layout;  ///< never null
  Examination examination;               ///< of the dump as read; points into the layout
  std::vector<Finding> reading;          ///< those of its findings that are about the reading
  Provenance provenance;                 ///< what its failed checks are weighed by
};

/// Settles the layout and judges the dump. Refuses (Error) a dump that names an unknown layout, one
/// that is too small for the layout, and one of which no layout can be told.
Opened open_dump(Dump dump, std::string name, const ReadingOrder& order, const Shelf& shelf);

/// The layout for a dump: the one given, else the one the dump names, else the one the bytes point
/// to. Refuses like open_dump().
Layout layout_for(const Dump& dump, const std::string& name, const std::optional<Layout>& given,
                  const Shelf& shelf);

/// The same; nothing when the bytes alone would have to tell, and do not.
std::optional<Layout> clear_layout_for(const Dump& dump, const std::string& name,
                                       const Shelf& shelf);

/// A dump that holds the 64 bytes of its chip twice becomes one of 64 bytes, unless the layout that
/// is given, or that the dump names, needs both halves.
Dump once(Dump dump, const std::optional<Layout>& given, const Shelf& shelf);

/// Refuses (Error) an image that is too small for the layout; `name` is where it came from.
void need_room_for(const Layout& layout, const Image& image, const std::string& name);

/// Judges an image as it was read: examine() with what there is to say about the reading, by its
/// bytes, by a second dump and by what its file says.
Examination judge_as_read(const Dump& dump, const Layout& layout, const std::vector<Reread>& again,
                          const Shelf& shelf);

/// What there is to weigh the causes of failed checks by.
Provenance provenance_of(const Dump& dump, const std::vector<Reread>& again,
                         const std::optional<Image>& before);

}  // namespace rtcmend
