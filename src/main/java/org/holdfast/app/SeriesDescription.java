package org.holdfast.app;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.holdfast.app.IntakeSeries.Kind;
import org.holdfast.finding.Finding;
import org.holdfast.finding.Severity;
import org.holdfast.intake.RoleReason;
import org.holdfast.intake.SeriesKind;
import org.holdfast.intake.SeriesUse;
import org.holdfast.intake.Stack;
import org.holdfast.volume.ScanFacts;
import org.holdfast.volume.VolumeGrid;

/** A series as a person is shown it: what it is, what is proposed for it and what is to be known. Stateless. */
final class SeriesDescription {

    /** Findings that the reasons for the role say too, in fewer words. */
    private static final Set<String> IN_REASONS = Set.of(
            "LOSSY", "ARTEFACT_REDUCTION", "CONE_BEAM", "MONOENERGETIC", "IRREGULAR", "NO_DATE", "MISSING_SLICES");

    private SeriesDescription() {}

    /**
     * Describes a series, or one stack of it.
     *
     * @param id its name in the session
     * @param use what intake says of it
     * @param burnedIn why text may be burned into its pictures; empty if nothing speaks for it
     */
    static IntakeSeries of(String id, SeriesUse use, Optional<String> burnedIn) {
        Kind kind = kind(use);
        SeriesRole proposed = proposed(use, kind, burnedIn);
        return new IntakeSeries(
                id,
                use.series().seriesInstanceUid(),
                kind,
                use.series().modality(),
                use.name(),
                use.series().description(),
                extent(use, kind),
                use.series().files().size(),
                proposed,
                possible(use),
                why(use, proposed),
                notes(use, proposed, burnedIn),
                use.isMeasurable()
                        ? use.stack()
                                .map(stack -> new ScanFacts(stack.acquisition(), stack.grid(), OptionalDouble.empty()))
                        : Optional.empty(),
                burnedIn.isPresent());
    }

    private static Kind kind(SeriesUse use) {
        if (use.stack().isPresent()) {
            return use.stack().get().whyNoHu().isEmpty() ? Kind.VOLUME : Kind.SLICES;
        }
        if (use.series().kind() == SeriesKind.RADIOGRAPH) {
            return Kind.FILM;
        }
        if (use.series().kind() == SeriesKind.OTHER) {
            return Kind.OTHER;
        }
        boolean localizer = use.series().findings().stream()
                .anyMatch(finding -> finding.code().equals("LOCALIZER"));
        return localizer ? Kind.LOCALIZER : Kind.PICTURE;
    }

    /** Text in pixels and in reports cannot be taken out: such series are left out unless a person wants them. */
    private static SeriesRole proposed(SeriesUse use, Kind kind, Optional<String> burnedIn) {
        boolean tells = kind == Kind.PICTURE || kind == Kind.OTHER || burnedIn.isPresent();
        if (tells && !use.isMeasurable()) {
            return SeriesRole.LEAVE_OUT;
        }
        return switch (use.role()) {
            case MEASURE -> SeriesRole.MEASURE;
            case CONFIRM -> SeriesRole.CONFIRM;
            case VIEW -> SeriesRole.VIEW;
        };
    }

    private static List<SeriesRole> possible(SeriesUse use) {
        List<SeriesRole> roles = new ArrayList<>();
        if (use.isMeasurable()) {
            roles.add(SeriesRole.MEASURE);
        }
        if (use.stack().isPresent() || use.series().kind() == SeriesKind.RADIOGRAPH) {
            roles.add(SeriesRole.CONFIRM);
        }
        roles.add(SeriesRole.VIEW);
        roles.add(SeriesRole.LEAVE_OUT);
        return roles;
    }

    private static String why(SeriesUse use, SeriesRole proposed) {
        if (proposed == SeriesRole.LEAVE_OUT) {
            return "text in it cannot be taken out";
        }
        RoleReason.Bearing bearing =
                proposed == SeriesRole.MEASURE ? RoleReason.Bearing.FOR : RoleReason.Bearing.AGAINST;
        List<String> speaking = use.reasons().stream()
                .filter(reason -> reason.bearing() == bearing)
                .map(RoleReason::text)
                .toList();
        List<String> all = use.reasons().stream().map(RoleReason::text).toList();
        return String.join("; ", speaking.isEmpty() ? all : speaking);
    }

    private static String extent(SeriesUse use, Kind kind) {
        if (use.stack().isPresent()) {
            return ofStack(use.stack().get());
        }
        int images = use.images();
        return switch (kind) {
            case OTHER -> images == 1 ? "1 object" : images + " objects";
            default -> images == 1 ? "1 image" : images + " images";
        };
    }

    private static String ofStack(Stack stack) {
        VolumeGrid grid = stack.grid();
        if (grid.pitchMm().isEmpty()) {
            return "1 slice";
        }
        double pitch = grid.pitchMm().getAsDouble();
        String step = String.format(Locale.ROOT, "%.2f", pitch).replaceAll("0$", "");
        String slices = Integer.toString(grid.slices());
        if (!grid.holesAfter().isEmpty()) {
            double length = grid.positionMm(grid.slices() - 1) - grid.positionMm(0);
            slices += " of " + (Math.round(length / pitch) + 1);
        }
        return step + "\u2009mm, " + slices;
    }

    private static List<IntakeNote> notes(SeriesUse use, SeriesRole proposed, Optional<String> burnedIn) {
        Set<IntakeNote> notes = new LinkedHashSet<>();
        burnedIn.ifPresent(why -> notes.add(new IntakeNote(IntakeNote.Mark.FAULT, why)));
        for (Finding finding : use.series().findings()) {
            if (finding.severity() != Severity.INFO && !IN_REASONS.contains(finding.code())) {
                notes.add(IntakeReading.note(finding));
            }
        }
        for (RoleReason reason : use.reasons()) {
            if (reason.bearing() != RoleReason.Bearing.FOR) {
                notes.add(new IntakeNote(mark(reason, proposed), reason.text()));
            }
        }
        // Intake names general reasons first; what sets series apart, such as scale and kernel, comes last.
        for (int n = use.reasons().size() - 1; n >= 0; n--) {
            if (use.reasons().get(n).bearing() == RoleReason.Bearing.FOR) {
                notes.add(new IntakeNote(
                        IntakeNote.Mark.GOOD, use.reasons().get(n).text()));
            }
        }
        return notes.stream()
                .sorted(Comparator.comparing(note -> weight(note.mark())))
                .collect(Collectors.toList());
    }

    private static IntakeNote.Mark mark(RoleReason reason, SeriesRole proposed) {
        return switch (reason.bearing()) {
            case FOR -> IntakeNote.Mark.GOOD;
            case AGAINST -> proposed == SeriesRole.MEASURE ? IntakeNote.Mark.CAUTION : IntakeNote.Mark.LIMIT;
            case NOTE -> IntakeNote.Mark.KNOWN;
        };
    }

    /** What limits comes first, what is as it should be last. */
    private static int weight(IntakeNote.Mark mark) {
        return switch (mark) {
            case FAULT -> 0;
            case LIMIT, CAUTION, QUESTION -> 1;
            case GOOD -> 2;
            case KNOWN -> 3;
        };
    }
}
