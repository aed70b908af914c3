package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.IntStream;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.VolumeGrid;

/**
 * The point spread of a scan from the implant's own edges, as an anisotropic Gaussian. On columns of voxels round rods, on
 * faces of bodies and round screws the blur along the normal is fitted with the edge; σ² less the voxel's box is then
 * (1 − c²) σ_in plane² + c² σ_along² by least squares with a robust loss, c the cosine between normal and table.
 *
 * <p>On clipped data only the part of the edge below the ceiling is seen and the metal's true HU are not: they are chosen
 * so that round rods and screws come out with the diameter that they are known to have. Thread-safe; uses all cores.
 */
public final class PointSpreadFromEdges {

    private static final int LARGEST_SITES = 360;
    private static final int ENOUGH_EDGES = 12;
    private static final double OUTSIDE_MM = 3.5;
    private static final double SOFT_TISSUE_FROM_MM = 1.5;
    private static final double SOFT_TISSUE_HU = 150;
    /** Noise that is taken for the weights; the edges' own spread gives the standard error. */
    private static final double NOISE_HU = 20;

    private static final double PLACE_SD_MM = 0.01;
    private static final double LARGEST_MISFIT = 12;
    private static final double LARGEST_SIGMA_SHARE = 0.3;
    /** Normals must tell the two directions apart: so many edges' worth of information on each. */
    private static final double LEAST_INFORMATION = 4;

    private static final double[] METAL_FACTORS = {0.8, 1.0, 1.25};
    private static final int ROBUST_ROUNDS = 15;
    private static final double ROBUST_SD = 2;
    private static final double MAD_TO_SD = 1.4826;
    private static final double CEILING_SLACK_HU = 10;

    private final ExamScan exam;
    private final MeasurementSettings settings;
    private final PointSpreadEstimate start;
    private final double ceilingHu;

    private PointSpreadFromEdges(ExamScan exam, MeasurementSettings settings) {
        this.exam = exam;
        this.settings = settings;
        this.start = PointSpreadEstimate.ofKernelAndThickness(
                exam.acquisition(), exam.volume().grid());
        double ceiling = exam.ceilingHuOrNaN();
        this.ceilingHu = Double.isNaN(ceiling) ? Double.POSITIVE_INFINITY : ceiling;
    }

    /**
     * The point spread of an exam.
     *
     * @param construct the construct on its reference exam
     * @param exam the exam, with the pose of the construct in it
     * @return measured where enough edges are seen, else the default of kernel and thickness with the reason; a direction
     *     that no edge tells keeps its default, and the note says so
     */
    public static PointSpreadEstimate of(Construct construct, ExamScan exam, MeasurementSettings settings) {
        return new PointSpreadFromEdges(exam, settings).measure(construct);
    }

    /**
     * One fitted edge.
     *
     * @param along c², of the angle between normal and table
     * @param variance σ² less the voxel's box, mm²
     * @param weight 1 / error² of it
     * @param place where the edge lies from the laid-out surface
     * @param residualHu root mean square of the residuals
     * @param isClipped whether the implant lies at the ceiling
     * @param isRound whether the surface is that of a rod or screw
     */
    private record Edge(
            double along,
            double variance,
            double weight,
            EdgeSites.Place place,
            double residualHu,
            boolean isClipped,
            boolean isRound) {}

    private PointSpreadEstimate measure(Construct construct) {
        List<EdgeSites.Site> sites = thinned(EdgeSites.of(construct, settings));
        List<ValueColumn> columns = columns(sites, construct);
        List<Edge> first = edges(sites, columns, 1);
        sites = EdgeSites.centred(sites, first.stream().map(Edge::place).toList());
        columns = columns(sites, construct);
        List<Edge> edges = edges(sites, columns, 1);
        boolean isClipped = 2 * edges.stream().filter(Edge::isClipped).count() > edges.size();
        if (isClipped) {
            edges = edges(sites, columns, metalFactor(sites, columns, edges));
        }
        if (edges.size() < ENOUGH_EDGES) {
            return start.withNote(String.format(
                    Locale.ROOT, "%d usable edges of the implant, %d are needed", edges.size(), ENOUGH_EDGES));
        }
        return estimate(edges, isClipped);
    }

    private static List<EdgeSites.Site> thinned(List<EdgeSites.Site> sites) {
        int stride = (sites.size() + LARGEST_SITES - 1) / LARGEST_SITES;
        return stride <= 1
                ? sites
                : IntStream.range(0, sites.size())
                        .filter(n -> n % stride == 0)
                        .mapToObj(sites::get)
                        .toList();
    }

    /** The columns of voxels of the sites; null where other metal is too near. */
    private List<ValueColumn> columns(List<EdgeSites.Site> sites, Construct construct) {
        ValueColumn[] read = new ValueColumn[sites.size()];
        IntStream.range(0, read.length).parallel().forEach(n -> {
            EdgeSites.Site site = sites.get(n);
            List<Component> others = construct.components().stream()
                    .filter(c -> !c.id().equals(site.component().id()))
                    .toList();
            if (FaceProfiles.cutsMm(List.of(site.sample()), others, settings)[0] < OUTSIDE_MM) {
                return;
            }
            PatientVector normal = exam.referenceToExam().apply(site.sample().normal());
            PatientPoint at = exam.referenceToExam()
                    .apply(site.sample().point())
                    .plus(exam.referenceToExam().apply(site.rim()));
            double sigma = start.sigmaOfVoxelsMm(normal, exam.volume().grid());
            double inside = site.layerMm() < Double.POSITIVE_INFINITY
                    ? Math.min(site.inside(), site.layerMm() - 3 * sigma)
                    : site.inside();
            double outside = site.isBare() ? OUTSIDE_MM : settings.profileOutsideMm();
            if (inside < 0.8) {
                return;
            }
            ValueColumn column = ValueColumn.read(
                    exam.volume(),
                    at,
                    normal,
                    turned(site.bend()),
                    settings.fit().columnRadiusMm(),
                    -inside,
                    outside);
            read[n] = !site.isBare() || isSoftOutside(column) ? column : null;
        });
        return Arrays.asList(read);
    }

    private ValueColumn.Bend turned(ValueColumn.Bend bend) {
        return bend.axis() == null
                ? bend
                : new ValueColumn.Bend(bend.radiusMm(), exam.referenceToExam().apply(bend.axis()));
    }

    private static boolean isSoftOutside(ValueColumn column) {
        int seen = 0;
        for (int n = 0; n < column.size(); n++) {
            if (column.tMm()[n] >= SOFT_TISSUE_FROM_MM) {
                seen++;
                if (Math.abs(column.hu()[n]) > SOFT_TISSUE_HU) {
                    return false;
                }
            }
        }
        return seen > 0;
    }

    private List<Edge> edges(List<EdgeSites.Site> sites, List<ValueColumn> columns, double metalFactor) {
        return IntStream.range(0, sites.size())
                .parallel()
                .filter(n -> columns.get(n) != null)
                .mapToObj(n -> edge(sites.get(n), columns.get(n), metalFactor))
                .filter(Objects::nonNull)
                .toList();
    }

    /** The fitted edge of a site; null where it cannot be used. */
    private Edge edge(EdgeSites.Site site, ValueColumn column, double metalFactor) {
        VolumeGrid grid = exam.volume().grid();
        PatientVector normal = exam.referenceToExam().apply(site.sample().normal());
        double sigma = start.sigmaOfVoxelsMm(normal, grid);
        boolean isClipped = column.size() > 0 && column.hu()[0] >= ceilingHu - CEILING_SLACK_HU;
        double metal = metalFactor * NominalMetal.hu(site.component().material(), settings);
        ValueColumn.Bend bend = turned(site.bend());
        double across = bend.axis() == null
                ? sigma
                : start.sigmaOfVoxelsMm(normal.cross(bend.axis()).unit(), grid);
        ProfileKnown known = new ProfileKnown(
                sigma,
                Double.POSITIVE_INFINITY,
                PointSpreadEstimate.boxMm4(normal, grid),
                across,
                bend.radiusMm(),
                new ProfileKnown.Prior(
                        settings.fluidHu(), site.isBare() ? 0 : settings.fit().fluidSdHu()),
                isClipped ? new ProfileKnown.Prior(metal, 0) : ProfileKnown.Prior.NONE,
                ProfileKnown.Prior.NONE,
                Double.POSITIVE_INFINITY,
                0,
                ceilingHu,
                NOISE_HU,
                1,
                PLACE_SD_MM);
        ProfileFit.Beside beside = site.isBare() ? ProfileFit.Beside.ONE_TISSUE : ProfileFit.Beside.BONE;
        FittedProfile fit = new ProfileFit(known, beside)
                .fit(column.tMm(), column.hu(), column.weight(), column.size())
                .orElse(null);
        if (fit == null || fit.misfit() > LARGEST_MISFIT || fit.plateauHu() < settings.implantMinHu()) {
            return null;
        }
        double found = fit.sigmaMm();
        double se = fit.mean(FittedProfile.Front::sigmaSeMm);
        if (se > LARGEST_SIGMA_SHARE * found) {
            return null;
        }
        double box = sigma * sigma - start.sigmaAlongDirectionMm2(normal, grid);
        double c = normal.dot(grid.normal());
        double error = 2 * found * Math.hypot(se, 0.02 * found);
        return new Edge(
                c * c,
                found * found - box,
                1 / (error * error),
                new EdgeSites.Place(site, fit.edgeMm()),
                fit.misfit() * NOISE_HU,
                isClipped,
                bend.axis() != null);
    }

    /** The metal's HU over the nominal ones at which rods and screws have their known diameter; 1 where none is seen. */
    private double metalFactor(List<EdgeSites.Site> sites, List<ValueColumn> columns, List<Edge> nominal) {
        double[] off = new double[METAL_FACTORS.length];
        for (int n = 0; n < off.length; n++) {
            List<Edge> edges = METAL_FACTORS[n] == 1 ? nominal : edges(sites, columns, METAL_FACTORS[n]);
            off[n] = edges.stream()
                    .filter(e -> e.isRound() && e.isClipped())
                    .mapToDouble(e -> e.place().offMm())
                    .average()
                    .orElse(Double.NaN);
        }
        if (!Double.isFinite(off[0] + off[1] + off[2])) {
            return 1;
        }
        // Brighter metal puts the edge further in; linear between the factors' logarithms, no further than they reach.
        for (int n = 1; n < off.length; n++) {
            if (off[n] <= 0 || n == off.length - 1) {
                double share = off[n - 1] / (off[n - 1] - off[n]);
                double low = Math.log(METAL_FACTORS[n - 1]);
                return Math.exp(low + Math.min(1, Math.max(0, share)) * (Math.log(METAL_FACTORS[n]) - low));
            }
        }
        return 1;
    }

    private PointSpreadEstimate estimate(List<Edge> edges, boolean isClipped) {
        double informationAlong =
                edges.stream().mapToDouble(e -> e.along() * e.along()).sum();
        double informationInPlane = edges.stream()
                .mapToDouble(e -> (1 - e.along()) * (1 - e.along()))
                .sum();
        boolean isAlong = informationAlong >= LEAST_INFORMATION;
        boolean isInPlane = informationInPlane >= LEAST_INFORMATION;
        double[] v = {
            start.sigmaInPlaneMm() * start.sigmaInPlaneMm(), start.sigmaAlongTableMm() * start.sigmaAlongTableMm()
        };
        double[] robust = new double[edges.size()];
        Arrays.fill(robust, 1);
        double spread = 0;
        double inverse = 0;
        for (int round = 0; round < ROBUST_ROUNDS; round++) {
            double pp = 0;
            double pa = 0;
            double aa = 0;
            double p = 0;
            double a = 0;
            for (int n = 0; n < robust.length; n++) {
                Edge e = edges.get(n);
                double w = robust[n] * e.weight();
                double inPlane = isInPlane ? 1 - e.along() : 0;
                double along = isAlong ? e.along() : 0;
                double rest =
                        e.variance() - (isInPlane ? 0 : (1 - e.along()) * v[0]) - (isAlong ? 0 : e.along() * v[1]);
                pp += w * inPlane * inPlane;
                pa += w * inPlane * along;
                aa += w * along * along;
                p += w * inPlane * rest;
                a += w * along * rest;
            }
            if (!isInPlane) {
                pp = 1;
            }
            if (!isAlong) {
                aa = 1;
            }
            double determinant = pp * aa - pa * pa;
            v[0] = isInPlane ? (aa * p - pa * a) / determinant : v[0];
            v[1] = isAlong ? (pp * a - pa * p) / determinant : v[1];
            inverse = aa / determinant;
            spread = weigh(edges, v, robust);
        }
        if (!(v[0] > 0 && v[1] > 0)) {
            return start.withNote("the implant's edges do not show a blur beyond the voxel's own size");
        }
        double sigmaInPlane = Math.sqrt(v[0]);
        double se = isInPlane ? spread * Math.sqrt(inverse) / (2 * sigmaInPlane) : Double.NaN;
        double residual =
                Quantiles.median(edges.stream().mapToDouble(Edge::residualHu).toArray());
        return new PointSpreadEstimate(
                sigmaInPlane,
                Math.sqrt(v[1]),
                PointSpreadEstimate.Source.IMPLANT_EDGES,
                Stated.of(residual),
                Stated.ofOrNot(se, "no edge shows the blur in plane"),
                note(edges, isClipped, isInPlane, isAlong));
    }

    /** Weights by how far an edge lies off; returns the edges' spread in units of their errors. */
    private static double weigh(List<Edge> edges, double[] v, double[] robust) {
        double[] off = new double[robust.length];
        for (int n = 0; n < off.length; n++) {
            Edge e = edges.get(n);
            off[n] = (e.variance() - (1 - e.along()) * v[0] - e.along() * v[1]) * Math.sqrt(e.weight());
        }
        double spread =
                MAD_TO_SD * Quantiles.median(Arrays.stream(off).map(Math::abs).toArray());
        for (int n = 0; n < off.length; n++) {
            double far = off[n] / (ROBUST_SD * Math.max(1e-9, spread));
            robust[n] = 1 / (1 + far * far);
        }
        return spread;
    }

    private static String note(List<Edge> edges, boolean isClipped, boolean isInPlane, boolean isAlong) {
        List<String> words = new ArrayList<>();
        words.add(edges.size() + " edges of the implant");
        if (isClipped) {
            words.add("below the ceiling of the scale only");
        }
        if (!isInPlane) {
            words.add("in plane taken from the kernel: no edge shows it");
        }
        if (!isAlong) {
            words.add("along the table taken from the slice thickness: no edge shows it");
        }
        return String.join("; ", words);
    }
}
