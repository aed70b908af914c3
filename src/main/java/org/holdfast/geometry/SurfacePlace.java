package org.holdfast.geometry;

/**
 * A place on a mesh.
 *
 * @param triangle the triangle that holds it
 * @param point the place
 * @param pseudoNormal normal of the face, edge or vertex on which it lies; its length has no meaning
 */
public record SurfacePlace(int triangle, PatientPoint point, PatientVector pseudoNormal) {}
