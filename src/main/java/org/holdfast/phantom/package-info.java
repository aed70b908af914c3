/**
 * CT simulator with known truth: analytic scenes (solids with HU painted one over the other), a scan of them with exact
 * partial volume, anisotropic Gaussian point spread, seeded noise and a clipped or extended HU scale, and the truth of
 * every scene as data. Also the invented demo subject and the writing of simulated CT series.
 *
 * <p>Patient space is DICOM LPS, mm; densities are HU. The simulator has no physics of X-rays: no beam hardening, no
 * scatter, no streaks, no motion. May use {@code geometry}, {@code dicom}, {@code volume} and {@code construct}.
 */
package org.holdfast.phantom;
