/**
 * Charts and maps as device-free drawings, and their files: SVG and PNG.
 *
 * <p>Coordinates of a drawing are logical pixels, x to the right, y down, origin at the top left corner. What is drawn
 * is given in the units of the trade (millimetres, months, fractions), in small records of this package. The package
 * may use geometry, volume, measure, statistics and review; only {@code PngWriter} touches the platform's graphics.
 */
package org.holdfast.figure;
