package org.holdfast.construct;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * A small piece of a patch, told by its middle.
 *
 * @param point middle of the piece, on the surface, mm
 * @param normal unit direction from implant to bone at that point
 * @param areaMm2 area of the piece, mm²
 * @param uMm first coordinate on the face-on map, mm; what it means is told by the kind of patch
 * @param vMm second coordinate on the face-on map, mm
 */
public record PatchSample(PatientPoint point, PatientVector normal, double areaMm2, double uMm, double vMm) {}
