// What of a mixture's classes goes on its label.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "reckon/label/class_facts.hpp"

namespace waxwright {

/// In the order of their codes, each once. What another covers is left off: H400 beside H410 (from
/// memory of Article 27 and its guidance), H318 beside H314 (CLP Annex I Table 3.3.5, note).
std::vector<Statement> statements_for(std::span<const HazardClass> classes);

/// The gravest of their signal words.
Signal signal_for(std::span<const HazardClass> classes);

/// n of GHS0n, ascending. From memory of Article 26(1): no exclamation mark beside a skull; none
/// for skin or eye irritation beside corrosion; none for skin sensitisation or irritation beside
/// the health hazard of respiratory sensitisation.
std::vector<int> pictograms_for(std::span<const HazardClass> classes);

/// Normally six at most (from memory of Article 28(3)).
inline constexpr std::size_t most_precautions = 6;

/// Substances that are named, normally (from memory of Article 18(3)).
inline constexpr std::size_t most_named = 4;

/// What stands for a precaution on a label with such classes: itself, or P333+P313 for P332+P313,
/// which says less (from memory of its conditions of use in Annex IV).
Precaution covering(Precaution one, std::span<const HazardClass> classes);

/// Six at most, in the order of the table: out of reach of children and how to dispose of it, since
/// it is sold to the public (from memory of Article 28(2) and Annex IV), and between them in turn
/// the first of each class, then the second, and so on. Those of the classes in `first` are all
/// chosen before any other's.
std::vector<Precaution> precautions_for(std::span<const HazardClass> classes,
                                        std::span<const HazardClass> first = {});

} // namespace waxwright
