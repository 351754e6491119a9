"""The sums of the cord test.

Glossary: symbol, name in code, unit, meaning. Names are coined here and nowhere else.

| symbol | name in code | unit | meaning |
|---|---|---|---|
| m | `mass_g` | g | total mass hung, hanger included |
| u(m) | `mass_u_g` | g | its standard uncertainty |
| g | `gravity_m_per_s2` | m/s2 | gravity in use |
| F | `force_n` | N | load |
| u(F) | `force_u_n` | N | its standard uncertainty |
| x | `pointer_mm` | mm | pointer on the scale, as read |
| x_0 | `zero_mm` | mm | pointer with the hanger alone |
| s x | `stretched_mm` | mm | pointer joined over a pointer put back and turned to grow with stretch |
| e | `extension_mm` | mm | how far the pointer moved from the zero, by the way the scale grows |
| u(e) | `extension_u_mm` | mm | its standard uncertainty |
| L0 | `free_length_mm` | mm | between the knots under the settling load |
| t_w | `waited_s` | s | how long the load hung before the reading |
| e/L0 | `strain` | 1 | extension over free length |
| d | `scale_division_mm` | mm | smallest division of the scale |
| a | `judgement_mm` | mm | half-width of the allowance for judging and parallax |
| u_x | `u_mm` | mm | standard uncertainty of one pointer reading of a cord |
| F_h, F_f | `low_n`, `high_n` | N | force held, force it failed under |
| F~ | `typical_break_force_n`, `weibull_break_force_n`, `median_n` | N | median breaking force of a design |
| m_f | `fail_mass_g` | g | total mass that it failed under |
| u2(m) | `variance_g2` | g2 | square of the standard uncertainty of one mass |
| D | `offset_mm` | mm | added to readings after a pointer was put back |
| d | `division_mm` | mm | smallest division of whatever scale is meant |
| w | `strip_width_mm` | mm | width of one strip |
| mu | `linear_density_g_per_m` | g/m | mass of a metre of cord |
| W | `work_j` | J | work that went into a cord up to its last held reading: a lower bound of the work to break |
| W_f | `failing_work_j` | J | what the failing step may have added to it |
| dW | `loop_j` | J | work that a loading loop did not give back |
| X0 - x_0 | `slack_mm` | mm | slack at the zero: the straight part carried back to the settling load, less the zero |
| x_s | `set_mm`, `permanent_set_mm` | mm | stretch left when the masses were taken off again |
| dx_c | `creep_mm` | mm | how far the pointer went on while the same masses hung |
| k_s | `secant_n_per_mm` | N/mm | stiffness from the zero to the heaviest load read |
| E | `youngs_modulus_mpa` | MPa | Young's modulus |
| s | `stress_mpa` | MPa | engineering stress, force over the first section |
| F_b/n | `load_per_strand_n` | N | breaking force for each strip |
| tau | `tenacity_cn_per_tex` | cN/tex | breaking force over linear density |
| L_B | `breaking_length_km` | km | length of cord that would break under its own weight |
| F_c | `common_force_n` | N | heaviest load to which all cords but early ends were read in one piece |
| F_r | `came_back_n`, `stayed_n` | N | loads that a cord came back from, loads that it did not |
| e_s | `seen_from_mm` | mm | the smallest permanent set that could have been seen |
| l_s | `strip_mm` | mm | length of one strip of a sheet |
| F_t | `top_n` | N | load of all rungs of a ladder |
| F_0, F_1 | `first_n`, `from_n`, `to_n` | N | lowest force of a section, both ends of its straight part |
| F_max - F_0 | `span_n` | N | range of forces of a section |
| psi | `bend_at_n` | N | where the cord leaves its straight part, the likeliest force |
| psi | `limit_n` | N | limit of proportionality, an interval |
| k | `stiffness_n_per_mm` | N/mm | stiffness of the straight part |
| c | `slope_mm_per_n` | mm/N | movement of the pointer for each newton |
| X0 | `zero_force_mm`, `intercept_mm` | mm | where the straight part has the pointer without any load |
| - | `line_at_start_mm` | mm | where the straight part has the pointer at the lowest force |
| - | `fitted_mm`, `residuals_mm` | mm | the fitted curve at each reading, reading less curve |
| - | `mean_mm`, `unit_mm` | mm | mean of a section's readings, the farthest of them from it |
| F_l | `leaves_n` | N | load from which on readings have left a line that a person chose |
| dk/2 | `half_difference_n_per_mm` | N/mm | half the difference of the steepest and the shallowest gradient |
"""
