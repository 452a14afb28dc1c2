/// @file gas_constant.h
/// Physical constants that several files of firing share.
/// @source CODATA 2018
#pragma once

namespace placer::firing {

inline constexpr double kGasConstant = 8.314462618;         ///< J/mol/K
inline constexpr double kFaraday = 96485.33212;             ///< C/mol
inline constexpr double kStefanBoltzmann = 5.670374419e-8;  ///< W/m2/K4

}  // namespace placer::firing
