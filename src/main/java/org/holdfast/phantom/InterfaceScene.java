package org.holdfast.phantom;

import java.util.List;
import org.holdfast.geometry.PatientPoint;

/**
 * A scene with one implant face against bone, for checking measures: an implant box with a porous layer, bone with a
 * cortical front that stands back from the face by the gaps of a pattern, fluid between. The outermost areas of the
 * pattern go on beyond the face, so that the rim of the face sees the same gap as its neighbourhood; where bone touches
 * at the rim it also covers the implant's sides for 2 mm.
 *
 * @param spec what it is made of
 * @param face the face, implant → bone along its normal
 * @param pattern the true gaps over the face
 * @param scene the scene, in patient space
 */
public record InterfaceScene(InterfaceSpec spec, FaceFrame face, GapPattern pattern, Scene scene) {

    /** Names of the bodies. */
    public static final String FRONT = "cortical front";

    public static final String FLUID = "fluid";
    public static final String IMPLANT = "implant";

    private static final double COUNTERSUNK_MM = 2;

    /**
     * Builds the scene. Painting order: background = trabecular bone; everything nearer than gap + front = cortex;
     * everything nearer than the gap = fluid; the implant.
     */
    public static InterfaceScene of(InterfaceSpec spec, GapPattern pattern) {
        return of(spec, pattern, List.of());
    }

    /** The same with bodies in the trabecular bone, such as denser bone over an area of the face; front and gap cover them. */
    public static InterfaceScene of(InterfaceSpec spec, GapPattern pattern, List<Body> inBone) {
        FaceFrame face = spec.face();
        Scene scene = Scene.of(spec.bone().trabecularHu());
        for (Body body : inBone) {
            scene = scene.with(body);
        }
        if (spec.bone().frontMm() > 0) {
            scene = scene.with(Body.of(
                    FRONT,
                    SteppedFront.over(face, pattern, gap -> gap + spec.bone().frontMm()),
                    spec.bone().frontHu()));
        }
        scene = scene.with(Body.of(FLUID, fluid(face, pattern), spec.bone().fluidHu()));
        PatientPoint middle =
                face.centre().along(face.normal(), -0.5 * spec.size().thicknessMm());
        Box implant = new Box(
                middle,
                face.u(),
                face.v(),
                face.normal(),
                spec.size().halfUMm(),
                spec.size().halfVMm(),
                0.5 * spec.size().thicknessMm());
        scene = scene.with(Body.shelled(
                IMPLANT,
                implant,
                spec.implant().porousDepthMm(),
                spec.implant().porousHu(),
                spec.implant().coreHu()));
        return new InterfaceScene(spec, face, pattern, scene);
    }

    /** The true gap at a place of the face, mm; 0 where bone touches. */
    public double trueGapMm(double uMm, double vMm) {
        return pattern.gapMm(uMm, vMm);
    }

    /**
     * Fluid up to each area's gap. Where bone touches, the fluid ends well under the face, inside the implant, or its
     * edge would show at the face; beside the implant the bone there rises by as much, as round a countersunk plate.
     */
    private static Solid fluid(FaceFrame face, GapPattern pattern) {
        return SteppedFront.over(face, pattern, gap -> gap > 0 ? gap : -COUNTERSUNK_MM);
    }
}
