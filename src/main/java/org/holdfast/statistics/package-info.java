/**
 * Estimators on plain arrays, as their sources define them. Knows nothing of images, implants or readers and uses no
 * other package.
 *
 * <p>NaN and infinite values are a caller's mistake; data that an estimator is not defined for give a result that says
 * so.
 */
package org.holdfast.statistics;
