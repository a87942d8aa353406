// What the CLP regulation says of each class of hazard, and the sentences of a label: the tables
// class_facts.def and statements.def, with their sources.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "model/hazard_class.hpp"

namespace waxwright {

/// A hazard sentence, `Statement::H317`.
enum class Statement : std::uint8_t {
#define STATEMENT(identifier, code, text) identifier,
#include "reckon/label/statements.def"
};

/// A sentence on what to do, `Precaution::P302_P352`.
enum class Precaution : std::uint8_t {
#define PRECAUTION(identifier, code, text) identifier,
#include "reckon/label/statements.def"
};

std::string_view code(Statement statement); // "H317"
std::string_view text(Statement statement); // in English
std::string_view code(Precaution precaution);
std::string_view text(Precaution precaution);

enum class HazardPart : std::uint8_t { physical, health, environment };
enum class Signal : std::uint8_t { none, warning, danger };
/// What may be left off a package of at most 125 ml: nothing, the P statements, or H and P.
enum class SmallPackage : std::uint8_t { none, precautions, both };

struct ClassFacts {
    HazardPart part;
    Statement statement;
    Signal signal;
    int pictogram;                           // n of GHS0n; 0 where there is none
    double counts_from;                      // mass fraction from which it counts in a sum
    double named_from;                       // mass fraction that sets off who is sensitised; or 0
    bool names;                              // the substance is named on the label
    SmallPackage small;                      // what of its statements may be left off
    std::span<const Precaution> precautions; // chosen ones, the most useful first
};

const ClassFacts& facts(HazardClass hazard);

} // namespace waxwright
