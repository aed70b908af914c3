/**
 * What was implanted, as a graph: components with their geometry, joins between them, the faces that bone should grow
 * onto, and the JSON document that keeps all of it (docs/construct.md).
 *
 * <p>All points and directions are in patient space (DICOM LPS, mm) of the reference exam. All types are immutable. A
 * rule that a value breaks is told with the field's name in the document, so the same sentence serves a caller and the
 * reader of a file. May use {@code geometry}; knows nothing of images.
 */
package org.holdfast.construct;
