package org.holdfast.construct;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/**
 * What was implanted, laid out on the reference exam. A correction is a new version; labels alone may change without
 * one.
 *
 * <p>Ids of the construct, its bones, components and interfaces are unique across the whole construct; every id that is
 * named exists.
 *
 * @param id name of the construct
 * @param version number of this version, at least 1
 * @param operationDate day of the operation that opens this epoch
 * @param referenceSeriesUid Series Instance UID of the reference exam
 * @param frameOfReferenceUid Frame of Reference UID of the reference exam, in whose space all places are given
 * @param axes the construct's own anatomical axes
 * @param bones bones that it touches
 * @param components implanted parts, at least one
 * @param joins how they are held to each other
 * @param interfaces faces against bone
 */
public record Construct(
        String id,
        int version,
        LocalDate operationDate,
        String referenceSeriesUid,
        String frameOfReferenceUid,
        Axes axes,
        List<Bone> bones,
        List<Component> components,
        List<Join> joins,
        List<BoneInterface> interfaces) {

    public Construct {
        Rule.id("id", id);
        Rule.atLeastOne("version", version);
        Objects.requireNonNull(operationDate, "operationDate");
        Rule.uid("referenceSeriesUid", referenceSeriesUid);
        Rule.uid("frameOfReferenceUid", frameOfReferenceUid);
        Objects.requireNonNull(axes, "axes");
        bones = List.copyOf(bones);
        components = Rule.notEmpty("components", components);
        joins = List.copyOf(joins);
        interfaces = List.copyOf(interfaces);
        requireUniqueIds(id, bones, components, interfaces);
        requireUniqueNumbers(components, interfaces);
        Set<String> boneIds = new HashSet<>();
        bones.forEach(bone -> boneIds.add(bone.id()));
        Map<String, Component> byId = new HashMap<>();
        components.forEach(component -> byId.put(component.id(), component));
        requireScrewBones(components, boneIds);
        requireJoinEnds(joins, byId);
        requireInterfaceEnds(interfaces, byId, boneIds);
    }

    /**
     * The component of an id.
     *
     * @throws IllegalArgumentException if there is none
     */
    public Component component(String componentId) {
        return components.stream()
                .filter(c -> c.id().equals(componentId))
                .findFirst()
                .orElseThrow(() -> missing("component", componentId));
    }

    /**
     * The interface of an id.
     *
     * @throws IllegalArgumentException if there is none
     */
    public BoneInterface interfaceById(String interfaceId) {
        return interfaces.stream()
                .filter(face -> face.id().equals(interfaceId))
                .findFirst()
                .orElseThrow(() -> missing("interface", interfaceId));
    }

    /**
     * The bone of an id.
     *
     * @throws IllegalArgumentException if there is none
     */
    public Bone bone(String boneId) {
        return bones.stream()
                .filter(bone -> bone.id().equals(boneId))
                .findFirst()
                .orElseThrow(() -> missing("bone", boneId));
    }

    /**
     * SHA-256 of everything but the labels, 64 hexadecimal digits: the construct's share in the key that tells whether a
     * result is stale. Computed over canonical JSON (keys sorted, no white space, shortest decimal of every number).
     */
    public String geometrySha256() {
        return ConstructHash.of(this);
    }

    private IllegalArgumentException missing(String what, String wanted) {
        return new IllegalArgumentException("construct " + id + " has no " + what + " \"" + wanted + '"');
    }

    private static void requireUniqueIds(
            String id, List<Bone> bones, List<Component> components, List<BoneInterface> interfaces) {
        Map<String, String> seen = new HashMap<>();
        seen.put(id, "id");
        for (int n = 0; n < bones.size(); n++) {
            claim(seen, bones.get(n).id(), "bones[" + n + "].id");
        }
        for (int n = 0; n < components.size(); n++) {
            claim(seen, components.get(n).id(), "components[" + n + "].id");
        }
        for (int n = 0; n < interfaces.size(); n++) {
            claim(seen, interfaces.get(n).id(), "interfaces[" + n + "].id");
        }
    }

    private static void requireUniqueNumbers(List<Component> components, List<BoneInterface> interfaces) {
        Map<String, String> seen = new HashMap<>();
        for (int n = 0; n < components.size(); n++) {
            claimNumber(seen, components.get(n).number(), "components[" + n + "].number");
        }
        seen.clear();
        for (int n = 0; n < interfaces.size(); n++) {
            claimNumber(seen, interfaces.get(n).number(), "interfaces[" + n + "].number");
        }
    }

    private static void claim(Map<String, String> seen, String id, String field) {
        String earlier = seen.putIfAbsent(id, field);
        if (earlier != null) {
            throw new InvalidField(field, "an id of its own", Rule.quoted(id) + ", which " + earlier + " has");
        }
    }

    private static void claimNumber(Map<String, String> seen, int number, String field) {
        String earlier = seen.putIfAbsent(Integer.toString(number), field);
        if (earlier != null) {
            throw new InvalidField(field, "a number of its own", number + ", which " + earlier + " has");
        }
    }

    private static void requireScrewBones(List<Component> components, Set<String> boneIds) {
        for (int n = 0; n < components.size(); n++) {
            if (components.get(n).shape() instanceof ScrewShape screw) {
                requireKnown("components[" + n + "].screw.bone", screw.bone(), "bone", boneIds);
            }
        }
    }

    private static void requireJoinEnds(List<Join> joins, Map<String, Component> byId) {
        for (int n = 0; n < joins.size(); n++) {
            Join join = joins.get(n);
            requireKnown("joins[" + n + "].from", join.from(), "component", byId.keySet());
            requireKnown("joins[" + n + "].to", join.to(), "component", byId.keySet());
            ComponentKind from = byId.get(join.from()).kind();
            ComponentKind to = byId.get(join.to()).kind();
            if (!join.kind().allowsFrom(from) || !join.kind().allowsTo(to)) {
                throw new InvalidField(
                        "joins[" + n + "].kind",
                        "a kind of join that fits its two parts",
                        Rule.quoted(join.kind().word()) + " from a " + from.word() + " to a " + to.word());
            }
        }
    }

    private static void requireInterfaceEnds(
            List<BoneInterface> interfaces, Map<String, Component> byId, Set<String> boneIds) {
        for (int n = 0; n < interfaces.size(); n++) {
            BoneInterface face = interfaces.get(n);
            requireKnown("interfaces[" + n + "].component", face.component(), "component", byId.keySet());
            requireKnown("interfaces[" + n + "].bone", face.bone(), "bone", boneIds);
        }
    }

    private static void requireKnown(String field, String id, String what, Set<String> known) {
        if (!known.contains(id)) {
            throw new InvalidField(field, "the id of a " + what + " of this construct", Rule.quoted(id));
        }
    }
}
