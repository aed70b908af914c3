/**
 * The estimators against simulated scans of known truth: rows of bias and 95 % limits with the goals of the measurement
 * definitions. A missed goal is printed, not loosened. Lengths mm, densities HU, fractions 0 to 1.
 */
package org.holdfast.validation;
