#include <array>

#include "deliver/carriers.h"
#include "deliver/disk.h"
#include "deliver/restore_program.h"

namespace rtcmend {

Delivery boot_floppy(const Parcel& parcel, const WritePlan& plan) {
  Delivery delivery;
  const std::array files{
      DiskFile{"RTCMEND SYS", restore_program("restore_floppy", parcel, plan)},
      DiskFile{"MEND    COM", restore_program("restore_dos", parcel, plan)},
  };
  delivery.content = make_boot_disk(parcel.disk, files);
  return delivery;
}

}  // namespace rtcmend
