package org.holdfast.construct;

/**
 * A bone that the construct touches.
 *
 * @param id unique in the construct, never reused
 * @param label words for a reader, such as {@code L2}
 */
public record Bone(String id, String label) {
    public Bone {
        Rule.id("id", id);
        Rule.label("label", label);
    }
}
