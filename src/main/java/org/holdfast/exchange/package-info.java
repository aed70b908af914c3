/**
 * Results for other programs, in open formats. May use every package of the core but the store.
 *
 * <p>Numbers are written in full double precision with a point, fractions from 0 to 1, units in the names of columns. A
 * value that is not stated is an empty cell, and the column beside it, whose name ends in {@code Why}, says why.
 */
package org.holdfast.exchange;
