#include "deliver/carriers.h"
#include "deliver/restore_program.h"

namespace rtcmend {

Delivery dos_program(const Parcel& parcel, const WritePlan& plan) {
  Delivery delivery;
  delivery.content = restore_program("restore_dos", parcel, plan);
  return delivery;
}

}  // namespace rtcmend
