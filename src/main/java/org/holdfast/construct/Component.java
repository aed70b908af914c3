package org.holdfast.construct;

import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;

/**
 * One implanted part with its geometry.
 *
 * @param id unique in the construct, never reused
 * @param number the number that a schematic shows, unique among the components, at least 1
 * @param label words for a reader
 * @param kind what it is
 * @param material what it is made of
 * @param implantedOn day of the operation that brought it
 * @param removedOn day of the operation that took it out, not before {@code implantedOn}; empty while it is in
 * @param porous its porous layer; only for a material that may be porous
 * @param shape where it lies; a {@link ScrewShape} for a screw and nothing else, a {@link RodShape} for a rod
 */
public record Component(
        String id,
        int number,
        String label,
        ComponentKind kind,
        Material material,
        LocalDate implantedOn,
        Optional<LocalDate> removedOn,
        Optional<Porous> porous,
        Shape shape) {

    public Component {
        Rule.id("id", id);
        Rule.atLeastOne("number", number);
        Rule.label("label", label);
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(material, "material");
        Objects.requireNonNull(implantedOn, "implantedOn");
        Objects.requireNonNull(removedOn, "removedOn");
        Objects.requireNonNull(porous, "porous");
        Objects.requireNonNull(shape, "shape");
        if (removedOn.isPresent() && removedOn.get().isBefore(implantedOn)) {
            throw new InvalidField("removedOn", "a day not before implantedOn " + implantedOn, removedOn.get());
        }
        if (porous.isPresent() && !material.mayBePorous()) {
            throw new InvalidField(
                    "porous",
                    "no porous layer on " + material.word() + " (only on " + Material.TITANIUM_POROUS.word() + " or "
                            + Material.TANTALUM.word() + ")",
                    "one of porosity " + porous.get().porosity());
        }
        if (kind.isScrew() != (shape instanceof ScrewShape)) {
            throw new InvalidField(
                    "kind", kind.isScrew() ? "a screw given by screw {…}" : "a screw, as the geometry is", kind.word());
        }
        if (kind.isRod() && !(shape instanceof RodShape)) {
            throw new InvalidField("kind", "a rod given by rod {…}", kind.word());
        }
    }

    /** Whether the part is in the patient on a day; on the days of implantation and removal it counts as in. */
    public boolean isInOn(LocalDate day) {
        return !day.isBefore(implantedOn)
                && removedOn.map(out -> !day.isAfter(out)).orElse(true);
    }
}
