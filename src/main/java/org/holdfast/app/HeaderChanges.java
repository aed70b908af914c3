package org.holdfast.app;

import java.util.List;

/**
 * What copying takes out of the headers, counted over one file of each series. Immutable.
 *
 * @param identity attributes that the subject's code takes the place of
 * @param dates attributes whose date is shifted, or taken out
 * @param removed attributes that are removed, emptied or replaced: places, persons, devices, words
 * @param privates private attributes that are removed
 * @param uids identifiers that are replaced
 * @param textsKept keywords of attributes whose words are kept, as the measurement needs them
 */
public record HeaderChanges(int identity, int dates, int removed, int privates, int uids, List<String> textsKept) {

    public HeaderChanges {
        textsKept = List.copyOf(textsKept);
    }
}
