package org.holdfast.intake;

import java.util.List;
import java.util.stream.Stream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/**
 * Reads the functional groups of a multi-frame object (PS3.3, section C.7.6.16): what is said for a frame, else for all
 * frames, stands as if it were said at the top of a single-frame header. That serves enhanced objects and those that were
 * converted from single frames, whose remaining attributes lie in groups of their own. Stateless.
 */
final class FunctionalGroups {

    private FunctionalGroups() {}

    /** Whether the header describes its frames in groups. */
    static boolean isIn(DataSet d) {
        return !d.items(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).isEmpty()
                || !d.items(Tag.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE).isEmpty();
    }

    /** A header for each frame; the whole header alone where it has no groups, or groups for all frames but for none. */
    static Stream<DataSet> frames(DataSet d) {
        if (!isIn(d)) {
            return Stream.of(d);
        }
        DataSet.Builder common = d.toBuilder()
                .remove(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE)
                .remove(Tag.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE);
        d.item(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).ifPresent(groups -> lift(groups, common));
        DataSet shared = common.build();
        List<DataSet> perFrame = d.items(Tag.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE);
        if (perFrame.isEmpty()) {
            return Stream.of(shared);
        }
        return perFrame.stream().map(groups -> {
            DataSet.Builder frame = shared.toBuilder();
            lift(groups, frame);
            return frame.build();
        });
    }

    /** Puts the elements of each group's item beside those of the header; a frame's type counts as the image's. */
    private static void lift(DataSet groups, DataSet.Builder into) {
        for (int sequence : groups.tags()) {
            groups.item(sequence).ifPresent(into::addAll);
        }
        for (int sequence : groups.tags()) {
            List<String> type = groups.item(sequence)
                    .map(item -> item.strings(Tag.FRAME_TYPE))
                    .orElse(List.of());
            if (!type.isEmpty()) {
                into.string(Tag.IMAGE_TYPE, type.toArray(String[]::new));
            }
        }
    }
}
