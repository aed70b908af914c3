package org.holdfast.construct;

import java.util.List;
import java.util.Objects;

/**
 * A component's face against a named bone.
 *
 * @param id unique in the construct, never reused
 * @param number the number that a schematic shows, unique among the interfaces, at least 1
 * @param label words for a reader
 * @param component id of the component whose face it is
 * @param bone id of the bone that it faces
 * @param filler what was put between them
 * @param patches the pieces of surface that make up the face, at least one
 */
public record BoneInterface(
        String id, int number, String label, String component, String bone, Filler filler, List<Patch> patches) {

    public BoneInterface {
        Rule.id("id", id);
        Rule.atLeastOne("number", number);
        Rule.label("label", label);
        Rule.id("component", component);
        Rule.id("bone", bone);
        Objects.requireNonNull(filler, "filler");
        patches = Rule.notEmpty("patches", patches);
    }

    /** Area of all patches, mm². */
    public double areaMm2() {
        return patches.stream().mapToDouble(Patch::areaMm2).sum();
    }
}
