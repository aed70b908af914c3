package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Construct;
import org.holdfast.construct.PartKind;
import org.holdfast.construct.ScrewShape;

/**
 * Guesses from a bone's screws and faces where it lies, for a drawing only: it ends at the faces, reaches beyond its screws
 * and is as wide as a vertebra where nothing tells more.
 */
final class BoneHint {

    private static final double BEYOND_SCREW_MM = 12;
    private static final double LEAST_HEIGHT_MM = 26;
    private static final double HALF_WIDTH_MM = 17;
    /** A bone is this much wider than the face against it. */
    private static final double WIDER_THAN_FACE = 1.35;

    private double top = Double.POSITIVE_INFINITY;
    private double bottom = Double.NEGATIVE_INFINITY;
    private double endAbove = Double.NaN;
    private double endBelow = Double.NaN;
    private double sumOfMiddles;
    private double halfWidth;
    private int touching;

    private BoneHint() {}

    /** Where a bone is hinted at, or nothing for one that no drawn screw or face touches. */
    static Optional<FrontBone> of(Construct construct, List<FrontPart> drawn, Bone bone) {
        BoneHint hint = new BoneHint();
        for (FrontPart part : drawn) {
            String id = part.part().id();
            if (part.part().kind() == PartKind.INTERFACE) {
                BoneInterface face = construct.interfaceById(id);
                if (face.bone().equals(bone.id())) {
                    hint.addFace(part);
                }
            } else if (construct.component(id).shape() instanceof ScrewShape screw
                    && screw.bone().equals(bone.id())) {
                hint.addScrew(part);
            }
        }
        return hint.touching == 0 ? Optional.empty() : Optional.of(hint.bone(bone.label()));
    }

    private void addScrew(FrontPart screw) {
        double at = (screw.first().downMm() + screw.last().downMm()) / 2;
        reach(at - BEYOND_SCREW_MM, at + BEYOND_SCREW_MM);
        sumOfMiddles += screw.last().leftMm();
        touching++;
    }

    private void addFace(FrontPart face) {
        Optional<FrontPoint> component = face.owner();
        FrontPoint at = face.middle();
        double width = Math.abs(face.last().leftMm() - face.first().leftMm());
        double height = Math.abs(face.last().downMm() - face.first().downMm());
        if (height > width) {
            boolean onTheRight =
                    component.isPresent() && at.leftMm() < component.get().leftMm();
            sumOfMiddles += at.leftMm() + (onTheRight ? -HALF_WIDTH_MM : HALF_WIDTH_MM);
            reach(at.downMm() - height / 2, at.downMm() + height / 2);
        } else {
            boolean boneIsAbove =
                    component.isEmpty() || at.downMm() < component.get().downMm();
            endBelow = boneIsAbove ? at.downMm() : endBelow;
            endAbove = boneIsAbove ? endAbove : at.downMm();
            reach(at.downMm(), at.downMm());
            sumOfMiddles += at.leftMm();
            halfWidth = Math.max(halfWidth, WIDER_THAN_FACE * width / 2);
        }
        touching++;
    }

    private void reach(double from, double to) {
        top = Math.min(top, from);
        bottom = Math.max(bottom, to);
    }

    private FrontBone bone(String label) {
        double above = Double.isNaN(endAbove) ? top : endAbove;
        double below = Double.isNaN(endBelow) ? bottom : endBelow;
        double missing = LEAST_HEIGHT_MM - (below - above);
        if (missing > 0) {
            boolean endsBelow = !Double.isNaN(endBelow);
            boolean endsAbove = !Double.isNaN(endAbove);
            double shareAbove = endsBelow == endsAbove ? 0.5 : endsBelow ? 1 : 0;
            above -= missing * shareAbove;
            below += missing * (1 - shareAbove);
        }
        double half = halfWidth > 0 ? halfWidth : HALF_WIDTH_MM;
        return new FrontBone(label, sumOfMiddles / touching, half, above, below);
    }
}
