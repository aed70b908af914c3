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
        boolean[][] out = new boolean[in.slabs()][ScrewVoxels.SECTORS];
        double nominal = NominalMetal.hu(component.material(), settings);
        double[] scales = {0.9, 1, 1.1};
        double[] total = new double[3];
        ZoneFit.Zone[][] zones = new ZoneFit.Zone[3][];
        for (int n = 0; n < 3; n++) {
            ScrewRings rings = new ScrewRings(in, exam, scales[n], nominal, out, settings);
            zones[n] = rings.stations(0.5);
            for (ZoneFit.Zone z : zones[n]) {
                if (z != null) {
                    total[n] += z.misfit();
                }
            }
        }
        double h = 0.1;
        double gradient = (total[2] - total[0]) / (2 * h);
        double curvature = (total[2] - 2 * total[1] + total[0]) / (h * h);
        double s = 1 - gradient / curvature;
        double[][] result = new double[2 + in.slabs()][];
        result[0] = new double[] {s, total[0], total[1], total[2], in.metalHu(), in.noiseSdHu()};
        result[1] = new double[] {in.axis().head().distanceTo(laid.head())};
        ScrewRings rings = new ScrewRings(in, exam, Math.max(0.85, Math.min(1.15, s)), nominal, out, settings);
        ZoneFit.Zone[] at = rings.stations(0.5);
        for (int n = 0; n < in.slabs(); n++) {
            ZoneFit.Zone z = at[n];
            result[2 + n] = z == null
                    ? new double[0]
                    : new double[] {
                        in.atMm(n),
                        z.widthMm(),
                        z.seMm(),
                        z.edgeMm(),
                        z.boneHu(),
                        z.frontExcessHu(),
                        z.reduced(),
                        zones[0][n].widthMm(),
                        zones[1][n].widthMm(),
                        zones[2][n].widthMm()
                    };
        }
        return result;
    }
}
