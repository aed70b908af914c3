package org.holdfast.measure;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * A part followed along its laid-out line in one exam. Arrays are one a station and must not be written.
 *
 * <p>Each station looks for its own metal, so that the pieces of a broken part are followed wherever they went; a station
 * that shows none of its own (in a gap, or inside a joint) lies on the straight way between its neighbours.
 *
 * @param axis the laid-out line in the exam
 * @param uMm place of the metal's centroid across the line
 * @param vMm the same
 * @param coreHu mean HU of the core; NaN outside the image
 * @param areaMm2 area of metal at half the plateau (clipped: at the metal threshold)
 * @param isFollowed whether the station shows its own metal, clear of other metal
 * @param jointOrNull name of the known joint at a station; null where there is none
 * @param plateauHu the part's own plateau
 * @param isClipped whether that lies at the scale's ceiling
 * @param levelHu HU at which metal begins
 */
record PartTrack(
        PartAxis axis,
        double[] uMm,
        double[] vMm,
        double[] coreHu,
        double[] areaMm2,
        boolean[] isFollowed,
        String[] jointOrNull,
        double plateauHu,
        boolean isClipped,
        double levelHu) {

    /** HU within which a plateau counts as lying at the ceiling: one step of an extended scale. */
    private static final double CEILING_SLACK_HU = 10;
    /** Metal is first looked for in a disc so much larger than the part, mm. */
    private static final double WIDE_MM = 1.5;
    /** Once found, its centroid and area are taken in a disc so much larger, mm. */
    private static final double NARROW_MM = 0.8;

    private static final int SHIFTS = 5;
    /** A piece that went further aside than a first look reaches is sought from this far on eight sides, mm. */
    private static final double ASIDE_MM = 5;
    /** Metal in more than this share of the ring round a part is another part's. */
    private static final double LONELY_RING = 0.10;
    /** A thread leaves at least this share of the outer cross-section, other metal or blur adds at most this. */
    private static final double SMALLEST_AREA = 0.35;

    private static final double LARGEST_AREA = 1.8;
    /** Neighbours further apart across than this are different pieces, mm. */
    private static final double JUMP_MM = 0.5;
    /** A piece shorter than this is a chance find, mm. */
    private static final double SHORTEST_PIECE_MM = 1;
    /** Joint stations so near to each other belong to one joint, mm; blur of a joint's border reaches half a millimetre. */
    private static final double JOINT_HOLE_MM = 2;

    private static final double JOINT_BORDER_MM = 0.5;

    /**
     * Follows a part.
     *
     * @param laidOut its centre line on the reference exam
     * @return empty where too little metal lies along it
     */
    static Optional<PartTrack> follow(
            ExamScan exam, PartAxis laidOut, KnownJoints joints, MeasurementSettings settings) {
        return new Follower(exam, laidOut, joints, settings).follow();
    }

    int size() {
        return axis.size();
    }

    /** Whether a station is at a known joint. */
    boolean isJoint(int n) {
        return jointOrNull[n] != null;
    }

    /** Whether a break could be seen at a station. */
    boolean isAssessable(int n) {
        return !isJoint(n) && !Double.isNaN(coreHu[n]);
    }

    private static final class Follower {

        private final PartAxis laidOut;
        private final PartAxis axis;
        private final KnownJoints joints;
        private final MeasurementSettings settings;
        private final CrossSection section;
        private final double ceilingHu;
        private final int size;
        private final double[] u;
        private final double[] v;
        private final double[] ring;
        private final boolean[] followed;
        private double plateau;
        private double level;

        Follower(ExamScan exam, PartAxis laidOut, KnownJoints joints, MeasurementSettings settings) {
            this.laidOut = laidOut;
            this.axis = laidOut.moved(exam.referenceToExam());
            this.joints = joints;
            this.settings = settings;
            this.section = new CrossSection(exam.volume(), laidOut.diameterMm());
            this.ceilingHu = exam.ceilingHuOrNaN();
            this.size = axis.size();
            this.u = new double[size];
            this.v = new double[size];
            this.ring = new double[size];
            this.followed = new boolean[size];
        }

        Optional<PartTrack> follow() {
            level = settings.metalHu();
            plateau = 2 * level;
            IntStream.range(0, size).forEach(n -> look(n, 0, 0));
            double[] cores = IntStream.range(0, size)
                    .filter(n -> followed[n])
                    .mapToDouble(this::core)
                    .toArray();
            if (cores.length < axis.stationsIn(SHORTEST_PIECE_MM)) {
                return Optional.empty();
            }
            plateau = Quantiles.median(cores);
            boolean clipped = plateau >= ceilingHu - CEILING_SLACK_HU;
            level = clipped ? settings.metalHu() : 0.5 * (plateau + settings.fluidHu());
            IntStream.range(0, size).forEach(n -> look(n, u[n], v[n]));
            dropChanceFinds();
            lookAside();
            dropChanceFinds();
            bridge();
            return Optional.of(new PartTrack(
                    axis,
                    u,
                    v,
                    IntStream.range(0, size).mapToDouble(this::core).toArray(),
                    IntStream.range(0, size).mapToDouble(this::area).toArray(),
                    followed,
                    known(),
                    plateau,
                    clipped,
                    level));
        }

        private double core(int n) {
            return section.coreHu(axis.station(n), u[n], v[n]);
        }

        private double area(int n) {
            return metal(n, u[n], v[n], NARROW_MM).areaMm2();
        }

        private CrossSection.Metal metal(int n, double fromU, double fromV, double beyondMm) {
            double reach = axis.radiusMm() + beyondMm + Math.hypot(fromU, fromV);
            return section.metal(
                    axis.station(n),
                    fromU,
                    fromV,
                    beyondMm,
                    level,
                    plateau,
                    joints.foreignAt(laidOut.station(n), reach));
        }

        /** Moves a station's place to its metal, from a start; it is followed if what is found looks like the part. */
        private void look(int n, double fromU, double fromV) {
            u[n] = fromU;
            v[n] = fromV;
            CrossSection.Metal metal = null;
            for (int shift = 0; shift < SHIFTS; shift++) {
                metal = metal(n, u[n], v[n], shift < SHIFTS - 2 ? WIDE_MM : NARROW_MM);
                u[n] = metal.uMm();
                v[n] = metal.vMm();
            }
            ring[n] = section.ringShare(axis.station(n), u[n], v[n], level);
            double whole = Math.PI * axis.radiusMm() * axis.radiusMm();
            followed[n] = metal.areaMm2() >= SMALLEST_AREA * whole
                    && metal.areaMm2() <= LARGEST_AREA * whole
                    && ring[n] <= LONELY_RING
                    && core(n) >= level;
        }

        private void dropChanceFinds() {
            int shortest = axis.stationsIn(SHORTEST_PIECE_MM);
            int start = 0;
            for (int n = 1; n <= size; n++) {
                boolean goesOn = n < size
                        && followed[n]
                        && followed[n - 1]
                        && Math.hypot(u[n] - u[n - 1], v[n] - v[n - 1]) <= JUMP_MM;
                if (!goesOn) {
                    if (n - start < shortest) {
                        Arrays.fill(followed, start, n, false);
                    }
                    start = n;
                }
            }
        }

        /** Stations that show nothing of the part look on eight sides; joints are left, where other metal would be found. */
        private void lookAside() {
            for (int n = 0; n < size; n++) {
                if (followed[n]
                        || ring[n] > LONELY_RING
                                && joints.near(laidOut.station(n).point()).isPresent()) {
                    continue;
                }
                for (int side = 0; side < 8 && !followed[n]; side++) {
                    double angle = Math.PI * side / 4;
                    look(n, ASIDE_MM * Math.cos(angle), ASIDE_MM * Math.sin(angle));
                }
            }
        }

        /** Stations without own metal lie on the way between their neighbours, beyond the last one where that lies. */
        private void bridge() {
            int last = -1;
            for (int n = 0; n <= size; n++) {
                if (n < size && !followed[n]) {
                    continue;
                }
                for (int m = last + 1; m < n; m++) {
                    double share = last < 0 ? 1 : n == size ? 0 : (double) (m - last) / (n - last);
                    int before = Math.max(last, 0);
                    int after = Math.min(n, size - 1);
                    u[m] = last < 0 ? u[after] : n == size ? u[before] : u[before] + share * (u[after] - u[before]);
                    v[m] = last < 0 ? v[after] : n == size ? v[before] : v[before] + share * (v[after] - v[before]);
                }
                last = n;
            }
        }

        /** A joint: metal beside the part that the construct explains, or another part laid out against it. */
        private String[] known() {
            String[] found = new String[size];
            for (int n = 0; n < size; n++) {
                PartAxis.Station here = laidOut.station(n);
                double beside = section.ringShare(axis.station(n), u[n], v[n], level);
                Optional<String> name = beside > LONELY_RING
                        ? joints.near(here.point()).or(() -> joints.touching(here))
                        : joints.touching(here);
                found[n] = name.orElse(null);
            }
            return closed(found);
        }

        private String[] closed(String[] found) {
            String[] closed = found.clone();
            int border = Math.max(1, axis.stationsIn(JOINT_BORDER_MM));
            int hole = axis.stationsIn(JOINT_HOLE_MM);
            int last = -1;
            for (int n = 0; n < size; n++) {
                if (found[n] == null) {
                    continue;
                }
                int from = last >= 0 && n - last <= hole ? last : n - border;
                Arrays.fill(closed, Math.max(0, from), Math.min(size, n + border + 1), found[n]);
                last = n;
            }
            return closed;
        }
    }

    /** Median of the areas of the stations that are followed. */
    double medianAreaMm2() {
        DoubleStream areas =
                IntStream.range(0, size()).filter(n -> isFollowed[n]).mapToDouble(n -> areaMm2[n]);
        return Quantiles.median(areas.toArray());
    }
}
