/**
 * What is measured on a construct in a scan: interface contact by threshold with what it cannot see, its settings, its
 * verdict and the key that tells whether a stored result still belongs to its inputs.
 *
 * <p>Definitions are those of docs/measurement (apparent contact, never true contact). Lengths mm, densities HU, areas
 * mm², fractions 0 to 1, patient space LPS; a profile's coordinate t runs along the outward normal of the implant's face
 * and is 0 on the laid-out patch. Not computable is a result that says why. May use {@code geometry}, {@code volume},
 * {@code construct} and {@code registration}.
 */
package org.holdfast.measure;
