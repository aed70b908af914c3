/**
 * HU inside an outline and along a line that a person drew on a cut. The only package that uses ImageJ, and of that only
 * its pixel arithmetic: no window, no settings, no state shared between calls, so that everything here may be called from
 * any thread.
 *
 * <p>Places are pixel coordinates of a {@link org.holdfast.volume.Cut}: x to the right, y down, the centre of pixel (0, 0)
 * at (0, 0). Lengths and areas are mm and mm², taken from the cut's own steps, which need be neither square nor at right
 * angles.
 */
package org.holdfast.regions;
