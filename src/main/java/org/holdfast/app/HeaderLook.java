package org.holdfast.app;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.intake.AttributeChange;
import org.holdfast.intake.BurnedInRisk;
import org.holdfast.intake.DateHandling;
import org.holdfast.intake.Deidentifier;
import org.holdfast.intake.ImageHeader;
import org.holdfast.intake.Pseudonyms;
import org.holdfast.intake.Series;

/**
 * What copying would take out of the headers, and whether text may be burned into the pixels: by one file of each series,
 * the others have the same attributes. Nothing is written. Not thread-safe.
 */
final class HeaderLook {

    private static final String PRIVATE = "(odd,xxxx)";

    private final Deidentifier trial =
            new Deidentifier(new Pseudonyms(new byte[Pseudonyms.SECRET_BYTES], "trial"), DateHandling.SHIFTED);
    private final Map<AttributeChange.Kind, Set<String>> attributes = new HashMap<>();
    private final Set<String> kept = new TreeSet<>();
    private int privates;

    /** Looks at a series; tells why its pictures may show text. */
    Optional<String> look(Series series) {
        ImageHeader first = series.files().get(0);
        try {
            DicomFile file = DicomReader.read(first.path());
            count(trial.apply(file.dataSet()));
            return file.pixels().isPresent() ? BurnedInRisk.of(file.dataSet()) : Optional.empty();
        } catch (DicomReadException e) {
            // It was readable a moment ago; if it stays unreadable the copying says so.
            return Optional.empty();
        }
    }

    /** The sums over all series that were looked at. */
    HeaderChanges changes() {
        return new HeaderChanges(
                number(AttributeChange.Kind.SUBJECT_CODE),
                number(AttributeChange.Kind.DATE_SHIFTED, AttributeChange.Kind.DATE_NOT_READ),
                number(
                        AttributeChange.Kind.REMOVED,
                        AttributeChange.Kind.EMPTIED,
                        AttributeChange.Kind.REPLACED,
                        AttributeChange.Kind.CODE_REPLACED,
                        AttributeChange.Kind.VALUE_NOT_VALID),
                privates,
                number(AttributeChange.Kind.UID_REPLACED),
                kept.stream().toList());
    }

    private void count(Deidentifier.Result result) {
        int ofThis = 0;
        for (Map.Entry<AttributeChange, Integer> each : result.changes().entrySet()) {
            AttributeChange change = each.getKey();
            if (change.tag().equals(PRIVATE)) {
                ofThis += each.getValue();
            } else if (change.kind() == AttributeChange.Kind.TEXT_KEPT) {
                kept.add(change.keyword().isEmpty() ? change.tag() : change.keyword());
            } else {
                attributes
                        .computeIfAbsent(change.kind(), kind -> new TreeSet<>())
                        .add(change.tag());
            }
        }
        privates = Math.max(privates, ofThis);
    }

    private int number(AttributeChange.Kind... kinds) {
        Set<String> tags = new TreeSet<>();
        for (AttributeChange.Kind kind : kinds) {
            tags.addAll(attributes.getOrDefault(kind, Set.of()));
        }
        return tags.size();
    }
}
