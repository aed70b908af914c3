package org.holdfast.measure;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ScrewShape;

public final class ScrewZones {
    private final Construct construct;
    private final Component component;
    private final ScrewShape screw;
    private final MeasurementSettings settings;

    public ScrewZones(Construct construct, Component component, MeasurementSettings settings) {
        this.construct = construct;
        this.component = component;
        this.settings = settings;
        this.screw = (ScrewShape) component.shape();
    }

    /** prototype */
    public double[][] probe(ExamScan exam) {
        List<Component> others = construct.components().stream()
                .filter(c -> !c.id().equals(component.id()))
                .toList();
        ScrewAxis laid = ScrewAxis.of(screw, construct.axes(), exam.referenceToExam());
        Optional<ScrewInExam> read = ScrewInExam.read(screw, laid, exam, others, settings);
        ScrewInExam in = read.orElseThrow();
        int[][] all = new int[in.slabs()][ScrewVoxels.SECTORS];
        for (int[] r : all) {
            java.util.Arrays.fill(r, in.rings());
        }
        double nominal = NominalMetal.hu(component.material(), settings);
        long t0 = System.nanoTime();
        ScrewRings first = new ScrewRings(in, exam.volume().grid(), exam.pointSpread(), nominal, all, settings);
        long t1 = System.nanoTime();
        int[][] depth = BoneDepth.of(in, first, settings.fluidHu());
        ScrewSpread spread = ScrewSpread.of(in, exam.volume().grid(), exam.pointSpread(), nominal, depth, settings);
        long t2 = System.nanoTime();
        ScrewRings rings = new ScrewRings(in, exam.volume().grid(), spread.estimate(), nominal, depth, settings);
        ZoneFit.Zone[] at = rings.stations(0.5);
        long t3 = System.nanoTime();
        double[][] result = new double[2 + in.slabs()][];
        int cut = 0;
        for (int[] r : depth) for (int d : r) cut += d < in.rings() ? 1 : 0;
        result[0] = new double[] {
            spread.estimate().sigmaInPlaneMm(),
            spread.estimate().sigmaAlongTableMm(),
            spread.widthSeMm(),
            cut,
            in.metalHu(),
            in.noiseSdHu()
        };
        result[1] = new double[] {
            in.axis().head().distanceTo(laid.head()), (t1 - t0) * 1e-9, (t2 - t1) * 1e-9, (t3 - t2) * 1e-9
        };
        for (int n = 0; n < in.slabs(); n++) {
            ZoneFit.Zone z = at[n];
            result[2 + n] = z == null
                    ? new double[0]
                    : new double[] {
                        in.atMm(n),
                        z.widthMm(),
                        Math.hypot(z.seMm(), spread.widthSeMm()),
                        z.edgeMm(),
                        z.boneHu(),
                        z.frontExcessHu(),
                        z.reduced(),
                        z.seMm()
                    };
        }
        return result;
    }
}
