package org.holdfast.registration;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;

/**
 * Searches the pose of metal without a start: for every turn of a lattice the translations with the most votes, the best
 * of these stepped into place and scored in both directions, in three rounds of fewer and finer candidates.
 */
final class PoseSearch {

    private static final double TURN_STEP_DEG = 12;
    private static final int SHIFTS_A_TURN = 2;
    private static final int FIRST_ROUND = 120;
    private static final int SECOND_ROUND = 18;
    private static final int THIRD_ROUND = 4;
    private static final int MIDDLE_POINTS = 1_500;
    /** Two candidates nearer to each other than this are one. */
    private static final double SAME_MM = 5;

    private static final double SAME_DEG = 5;
    private static final double PLACE_MM = 12;

    /** Scores of coarse candidates: within 6 mm; then, stepped, within 2 mm; at last as the settings say. */
    private static final MatchSettings ROUGH = new MatchSettings(7, 6, 0.5, 1, 0, 0, 10, 0.003);

    private static final MatchSettings STEPPED = new MatchSettings(10, 2, 0.5, 25, 0, 0, 10, 0.003);

    /** A candidate and how well it fits: 0 to 1, but votes in the first round. */
    record Scored(RigidTransform pose, double score) {}

    private final TwoSurfaces surfaces;
    private final RegistrationSettings settings;
    private final SurfacePoints ours;
    private final SurfacePoints theirs;
    private final PatientPoint middle;

    PoseSearch(TwoSurfaces surfaces, RegistrationSettings settings) {
        this.surfaces = surfaces;
        this.settings = settings;
        this.ours = surfaces.reference.thinned(settings.coarsePoints());
        this.theirs = surfaces.exam.thinned(settings.coarsePoints());
        this.middle = ours.centroid();
    }

    /** The candidates of the last round, best first; empty if nothing fits anywhere. */
    List<Scored> search(Progress progress) {
        RigidTransform toMiddle = RigidTransform.translation(PatientPoint.ORIGIN.minus(middle));
        SurfacePoints centred = ours.moved(toMiddle);
        double radius = 0;
        for (int n = 0; n < centred.size(); n++) {
            radius = Math.max(radius, centred.point(n).distanceTo(PatientPoint.ORIGIN));
        }
        double radiusMm = radius;
        List<Scored> voted = TurnLattice.upTo(settings.largestTurnDeg(), TURN_STEP_DEG).parallelStream()
                .flatMap(turn -> {
                    progress.stopIfCancelled();
                    ShiftVotes votes = new ShiftVotes(theirs, radiusMm);
                    return votes.best(centred.moved(turn), SHIFTS_A_TURN).stream()
                            .map(shift -> new Scored(
                                    toMiddle.then(turn).then(RigidTransform.translation(shift.shiftMm())),
                                    shift.votes()));
                })
                .toList();
        progress.report(0.3, "searching the metal");
        List<Scored> rough = distinct(voted, FIRST_ROUND).parallelStream()
                .map(c -> new Scored(c.pose(), surfaces.score(ours, theirs, c.pose(), ROUGH)))
                .toList();
        progress.report(0.5, "searching the metal");
        List<Scored> stepped = stepped(distinct(rough, SECOND_ROUND), ours, theirs, STEPPED, progress);
        progress.report(0.8, "searching the metal");
        SurfacePoints more = surfaces.reference.thinned(MIDDLE_POINTS);
        SurfacePoints moreTheirs = surfaces.exam.thinned(MIDDLE_POINTS);
        MatchSettings last = settings.match().withReachMm(4);
        return distinct(stepped(distinct(stepped, THIRD_ROUND), more, moreTheirs, last, progress), THIRD_ROUND);
    }

    private List<Scored> stepped(
            List<Scored> candidates,
            SurfacePoints some,
            SurfacePoints someTheirs,
            MatchSettings steps,
            Progress progress) {
        return candidates.parallelStream()
                .map(candidate -> {
                    progress.stopIfCancelled();
                    return surfaces.stepped(some, candidate.pose(), steps);
                })
                .flatMap(Optional::stream)
                .map(pose -> new Scored(pose, surfaces.score(some, someTheirs, pose, steps)))
                .toList();
    }

    /**
     * The best, without those that are nearly the same as a better one, and a few of each place only: turns about one place
     * must not crowd out another place that fits as well.
     */
    private List<Scored> distinct(List<Scored> candidates, int count) {
        List<Scored> sorted = new ArrayList<>(candidates);
        sorted.sort(Comparator.comparingDouble(Scored::score).reversed());
        List<Scored> kept = new ArrayList<>();
        for (Scored candidate : sorted) {
            boolean isNew = kept.stream().noneMatch(k -> isSame(k.pose(), candidate.pose()));
            long here = kept.stream()
                    .filter(k -> middlesApartMm(k.pose(), candidate.pose()) < PLACE_MM)
                    .count();
            if (isNew && here < Math.max(2, count / 3) && kept.size() < count) {
                kept.add(candidate);
            }
        }
        return kept;
    }

    private double middlesApartMm(RigidTransform a, RigidTransform b) {
        return a.apply(middle).distanceTo(b.apply(middle));
    }

    private boolean isSame(RigidTransform a, RigidTransform b) {
        return middlesApartMm(a, b) < SAME_MM && a.inverse().then(b).rotationAngleDeg() < SAME_DEG;
    }
}
