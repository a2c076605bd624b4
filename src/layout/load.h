#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "layout/layout.h"
#include "layout/trait.h"

namespace rtcmend {

/// Finds an included part by its name ("parts/memory"); empty when there is none.
using PartSource = std::function<std::string_view(std::string_view name)>;

/// Makes a layout of one's own from JSON text: checked against the schema, then for meaning (fields
/// inside the chip, no bit claimed twice, no check over its own stored bytes, no circle of
/// includes). What it builds on (`of`, `traits`) is built in. Throws Error (input) whose `where` is
/// the file and the JSON path.
Layout load_layout(std::string_view text, const std::string& where, const PartSource& parts);

/// The same for a class.
LayoutClass load_class(std::string_view text, const std::string& where, const PartSource& parts);

/// The same for a trait. What it means beside its class is proven by prove_trait().
Trait load_trait(std::string_view text, const std::string& where, const PartSource& parts);

/// Throws Error (input) unless the trait makes sense on each of its classes.
void prove_trait(const Trait& trait, const LayoutClass& layout_class);

}  // namespace rtcmend
