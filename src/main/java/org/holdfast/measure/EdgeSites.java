package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.CylinderPatch;
import org.holdfast.construct.Patch;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.Porous;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/** Where the implant's edges are read for the point spread: round rods, round screws, on the faces of bodies. */
final class EdgeSites {

    private static final double SPACING_MM = 2;
    /** Rods are read so far from their ends and bends. */
    private static final double END_MM = 4;
    /** Shortest stretch of a rod that is read. */
    private static final double SHORTEST_MM = 4;

    /** Fewer edges than this do not tell where an axis lies. */
    private static final int ENOUGH_PLACES = 12;

    private EdgeSites() {}

    /**
     * A place on the implant's surface.
     *
     * @param component whose surface
     * @param sample the place, in the reference exam
     * @param bend how the surface bends
     * @param isBare whether one tissue is looked for beside it, else bone
     * @param layerMm depth of the porous layer; infinite for none
     * @param inside how far inside the implant is read, mm
     * @param rim how far the column is moved inwards
     */
    record Site(
            Component component,
            PatchSample sample,
            ValueColumn.Bend bend,
            boolean isBare,
            double layerMm,
            double inside,
            PatientVector rim) {}

    /** All sites of a construct: rods first, then faces of bodies, then screws. */
    static List<Site> of(Construct construct, MeasurementSettings settings) {
        List<Site> sites = new ArrayList<>();
        for (Component component : construct.components()) {
            if (component.material().hasMetalEdge() && component.shape() instanceof RodShape rod) {
                for (int n = 1; n < rod.points().size(); n++) {
                    addStretch(
                            sites,
                            component,
                            rod,
                            rod.points().get(n - 1),
                            rod.points().get(n));
                }
            }
        }
        for (BoneInterface face : construct.interfaces()) {
            Component component = construct.component(face.component());
            if (component.material().hasMetalEdge()) {
                for (Patch patch : face.patches()) {
                    if (patch instanceof PlanePatch) {
                        addFace(sites, component, patch, settings);
                    }
                }
            }
        }
        for (Component component : construct.components()) {
            if (component.material().hasMetalEdge() && component.shape() instanceof ScrewShape screw) {
                addCylinder(sites, component, screw.inBonePatch(), false);
            }
        }
        return sites;
    }

    private static void addStretch(
            List<Site> sites, Component component, RodShape rod, PatientPoint from, PatientPoint to) {
        double length = from.distanceTo(to);
        if (length >= 2 * END_MM + SHORTEST_MM) {
            PatientVector axis = to.minus(from).unit();
            addCylinder(
                    sites,
                    component,
                    new CylinderPatch(
                            from.along(axis, END_MM), from.along(axis, length - END_MM), 0.5 * rod.diameterMm()),
                    true);
        }
    }

    private static void addCylinder(List<Site> sites, Component component, CylinderPatch patch, boolean isBare) {
        ValueColumn.Bend bend = new ValueColumn.Bend(patch.radiusMm(), patch.axis());
        for (PatchSample sample : patch.samples(SPACING_MM)) {
            sites.add(new Site(
                    component,
                    sample,
                    bend,
                    isBare,
                    Double.POSITIVE_INFINITY,
                    0.8 * patch.radiusMm(),
                    new PatientVector(0, 0, 0)));
        }
    }

    private static void addFace(List<Site> sites, Component component, Patch patch, MeasurementSettings settings) {
        List<PatchSample> samples = patch.samples(SPACING_MM);
        double inside = FaceLayer.of(component, samples, settings).insideMm();
        double layer = component.porous().map(Porous::depthMm).orElse(Double.POSITIVE_INFINITY);
        for (PatchSample sample : samples) {
            sites.add(new Site(
                    component,
                    sample,
                    ValueColumn.Bend.PLANE,
                    false,
                    layer,
                    inside,
                    FaceRim.inwards(component.shape(), sample, settings)));
        }
    }

    /**
     * Where the edge was found at a site.
     *
     * @param site the site
     * @param offMm mm outwards from the laid-out surface
     */
    record Place(Site site, double offMm) {}

    /**
     * Sites of rods and screws moved so that their axes run through the middle of the edges found: off the axis a column
     * sees the round surface aslant, which looks like blur. Of an axis that lies o + s·w from where it was laid out, s the
     * way along it, the edges lie n·(o + s·w) off; round the circumference the mean of n·nᵀ is half of unity.
     */
    static List<Site> centred(List<Site> sites, List<Place> places) {
        List<Site> moved = new ArrayList<>();
        for (Site site : sites) {
            moved.add(site.bend().axis() == null ? site : centred(site, places));
        }
        return moved;
    }

    private static Site centred(Site site, List<Place> places) {
        PatientVector axis = site.bend().axis();
        List<Place> own = places.stream()
                .filter(p -> p.site().component().equals(site.component())
                        && axis.equals(p.site().bend().axis()))
                .toList();
        if (own.size() < ENOUGH_PLACES) {
            return site;
        }
        double middle =
                own.stream().mapToDouble(p -> along(p.site(), axis)).average().orElseThrow();
        PatientVector offset = new PatientVector(0, 0, 0);
        PatientVector slope = new PatientVector(0, 0, 0);
        double squares = 0;
        for (Place place : own) {
            double s = along(place.site(), axis) - middle;
            PatientVector pull = place.site().sample().normal().times(2 * place.offMm());
            offset = offset.plus(pull.times(1.0 / own.size()));
            slope = slope.plus(pull.times(s));
            squares += s * s;
        }
        double s = along(site, axis) - middle;
        PatientVector way = offset.plus(slope.times(squares > 0 ? s / squares : 0));
        PatchSample sample = site.sample();
        return new Site(
                site.component(),
                new PatchSample(
                        sample.point().plus(way), sample.normal(), sample.areaMm2(), sample.uMm(), sample.vMm()),
                site.bend(),
                site.isBare(),
                site.layerMm(),
                site.inside(),
                site.rim());
    }

    private static double along(Site site, PatientVector axis) {
        return site.sample().point().minus(PatientPoint.ORIGIN).dot(axis);
    }
}
