#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace rtcmend {

/// A place in a JSON Schema: what it says of one value of a document. References are followed.
class SchemaNode {
 public:
  using Pointer = nlohmann::json::json_pointer;

  /// What `root`, which must outlive it, says of a whole document.
  explicit SchemaNode(const nlohmann::json& root, Pointer pointer = Pointer());

  /// What it says of the value inside `document` that `at` points to.
  SchemaNode within(const nlohmann::json& document, const Pointer& at) const;

  /// The schema there; one that allows everything where nothing is said.
  const nlohmann::json& schema() const;
  /// Where it stands in the root.
  const Pointer& pointer() const { return pointer_; }
  /// A copy that can be used without the root: what it refers to comes with it.
  nlohmann::json alone() const;
  /// The schemas of its "anyOf".
  std::vector<SchemaNode> choices() const;

 private:
  SchemaNode member(const std::string& key) const;
  SchemaNode items() const;

  const nlohmann::json* root_;
  Pointer pointer_;
};

}  // namespace rtcmend
