package org.holdfast.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.ValueRepresentations;
import org.holdfast.dicom.Vr;
import org.holdfast.intake.AttributeChange.Kind;
import org.holdfast.intake.ProfileTable.Row;

/** Cleans one data set and every item in it, at any depth, and notes what it did. One use per data set. */
final class ItemCleaning {

    /** UIDs that name a kind of thing, not a thing: SOP classes, transfer syntaxes, coding schemes, context groups. */
    private static final Set<Integer> KINDS = Set.of(
            0x00080016,
            0x0008001A,
            0x0008001B,
            0x00080062,
            0x0008010C,
            0x00080117,
            0x00080118,
            0x00081150,
            0x0008115A,
            0x00041510,
            0x00041512,
            0x04000510,
            0x00083002);

    private static final Pattern UID = Pattern.compile("[0-9.]{1,64}");
    private static final Pattern SHORT_NUMBER = Pattern.compile("[A-Za-z0-9]{1,4}");
    private static final int STACK_ID = 0x00209056;
    private static final int LONGEST_TEXT = 64;
    private static final int LOWEST_GROUP = 0x0008;

    private final Pseudonyms pseudonyms;
    private final DateHandling dates;
    private final boolean plainImage;
    private final Map<AttributeChange, Integer> changes = new TreeMap<>();

    ItemCleaning(Pseudonyms pseudonyms, DateHandling dates, boolean plainImage) {
        this.pseudonyms = pseudonyms;
        this.dates = dates;
        this.plainImage = plainImage;
    }

    /** What was done so far, with the number of places. */
    Map<AttributeChange, Integer> changes() {
        return changes;
    }

    /** Starts from nothing and takes over what may stay, so that what nobody thought of stays behind. */
    DataSet.Builder clean(DataSet data) {
        DataSet.Builder out = DataSet.builder();
        for (int tag : data.tags()) {
            boolean groupLength = (tag & 0xFFFF) == 0;
            if (groupLength) {
                continue;
            }
            if (tag >>> 16 < LOWEST_GROUP) {
                note(tag, Kind.REMOVED);
            } else {
                element(data, tag, out);
            }
        }
        return out;
    }

    /** Counts one more place where something was done to an attribute. */
    void note(int tag, Kind kind) {
        Optional<Row> row = ProfileTable.basic().row(tag);
        boolean pattern = row.isPresent() && row.get().tag().indexOf('x') >= 0;
        String name = pattern ? row.get().tag() : Tag.format(tag);
        changes.merge(new AttributeChange(name, row.map(Row::keyword).orElse(""), kind), 1, Integer::sum);
    }

    private void element(DataSet data, int tag, DataSet.Builder out) {
        Optional<Row> row = ProfileTable.basic().row(tag);
        Vr standard = ValueRepresentations.of(tag);
        boolean temporal = standard == Vr.DA || standard == Vr.DT || standard == Vr.TM;
        boolean mayBeShifted = temporal && (row.isEmpty() || row.get().modifiedDates());
        if (mayBeShifted && dates == DateHandling.SHIFTED && shifted(data, tag, standard, out)) {
            return;
        }
        if (row.isPresent()) {
            act(row.get().action(plainImage), data, tag, out);
        } else if (temporal) {
            act(removedUnlessRequired(), data, tag, out);
        } else {
            beyondTheTable(data, tag, standard, out);
        }
    }

    /** What the table does not name goes; where a value may be required it is replaced. */
    private ProfileAction removedUnlessRequired() {
        return plainImage ? ProfileAction.REMOVE : ProfileAction.REPLACE;
    }

    /** Shifts all values; false if one of them names no day, or is no time. */
    private boolean shifted(DataSet data, int tag, Vr standard, DataSet.Builder out) {
        if (data.isBlank(tag) && !isSequence(data, tag)) {
            out.bytes(tag, standard, new byte[0]);
            return true;
        }
        List<String> values = new ArrayList<>();
        for (String value : data.strings(tag)) {
            Optional<String> moved =
                    switch (standard) {
                        case DA -> ShiftedDates.date(value, pseudonyms.shiftDays());
                        case DT -> ShiftedDates.dateTime(value, pseudonyms.shiftDays());
                        default -> ShiftedDates.isTime(value) ? Optional.of(value) : Optional.empty();
                    };
            if (moved.isEmpty()) {
                values.clear();
                break;
            }
            values.add(moved.get());
        }
        if (values.isEmpty()) {
            note(tag, standard == Vr.TM ? Kind.VALUE_NOT_VALID : Kind.DATE_NOT_READ);
            return false;
        }
        out.string(tag, standard, values.toArray(String[]::new));
        if (standard != Vr.TM) {
            note(tag, Kind.DATE_SHIFTED);
        }
        return true;
    }

    private void act(ProfileAction action, DataSet data, int tag, DataSet.Builder out) {
        switch (action) {
            case REMOVE -> note(tag, Kind.REMOVED);
            case EMPTY -> empty(data, tag, out);
            case REPLACE -> replace(data, tag, out);
            case MAP_UID -> mapUids(data, tag, out);
            case KEEP -> keepText(data, tag, out);
        }
    }

    private void empty(DataSet data, int tag, DataSet.Builder out) {
        if (representation(data, tag) == Vr.SQ) {
            out.items(tag, List.of());
        } else {
            out.bytes(tag, representation(data, tag), new byte[0]);
        }
        note(tag, Kind.EMPTIED);
    }

    private void replace(DataSet data, int tag, DataSet.Builder out) {
        Vr vr = representation(data, tag);
        String keyword = ProfileTable.basic().row(tag).map(Row::keyword).orElse("");
        if (tag == HarmlessValues.GRAPHIC_ANNOTATION_SEQUENCE) {
            note(tag, Kind.REMOVED);
            return;
        }
        if (vr != Vr.SQ) {
            HarmlessValues.put(out, tag, vr);
        } else if (tag == HarmlessValues.CONTENT_SEQUENCE) {
            out.items(tag, List.of(HarmlessValues.reportEntry()));
        } else if (keyword.endsWith("CodeSequence")) {
            out.items(tag, List.of(HarmlessValues.code()));
        } else {
            out.items(tag, cleanItems(data, tag));
        }
        note(tag, Kind.REPLACED);
    }

    private void mapUids(DataSet data, int tag, DataSet.Builder out) {
        if (isSequence(data, tag)) {
            out.items(tag, cleanItems(data, tag));
            return;
        }
        List<String> old = data.strings(tag);
        if (representation(data, tag) != Vr.UI || old.isEmpty()) {
            empty(data, tag, out);
            return;
        }
        out.string(tag, Vr.UI, old.stream().map(pseudonyms::uid).toArray(String[]::new));
        if (!old.stream().allMatch(Pseudonyms::isStandard)) {
            note(tag, Kind.UID_REPLACED);
        }
    }

    /** Text that the measurement needs, as it is; one that is too long to be it goes. */
    private void keepText(DataSet data, int tag, DataSet.Builder out) {
        String text = String.join("\\", data.strings(tag));
        boolean fits = text.length() <= LONGEST_TEXT
                && (tag != STACK_ID || SHORT_NUMBER.matcher(text).matches());
        if (isSequence(data, tag) || text.isEmpty() && !data.isBlank(tag)) {
            note(tag, Kind.REMOVED);
        } else if (!fits) {
            replace(data, tag, out);
        } else {
            out.bytes(tag, ValueRepresentations.of(tag), data.bytes(tag).orElseThrow());
            note(tag, Kind.TEXT_KEPT);
        }
    }

    private void beyondTheTable(DataSet data, int tag, Vr standard, DataSet.Builder out) {
        boolean sequence = isSequence(data, tag);
        if (standard == Vr.SQ && sequence) {
            out.items(tag, cleanItems(data, tag));
        } else if (standard == Vr.SQ || standard == Vr.UN || sequence) {
            note(tag, Kind.REMOVED);
        } else if (standard == Vr.UI && !KINDS.contains(tag)) {
            mapUids(data, tag, out);
        } else if (standard == Vr.UI) {
            kind(data, tag, out);
        } else {
            plain(data, tag, out);
        }
    }

    private void kind(DataSet data, int tag, DataSet.Builder out) {
        List<String> uids = data.strings(tag);
        if (data.isBlank(tag)) {
            out.bytes(tag, Vr.UI, new byte[0]);
        } else if (!uids.isEmpty()
                && uids.stream().allMatch(uid -> UID.matcher(uid).matches())) {
            out.string(tag, Vr.UI, uids.toArray(String[]::new));
        } else {
            note(tag, Kind.VALUE_NOT_VALID);
        }
    }

    private void plain(DataSet data, int tag, DataSet.Builder out) {
        Optional<PlainValues.Kept> kept = PlainValues.of(data, tag);
        kept.ifPresent(value -> out.bytes(tag, value.vr(), value.value()));
        boolean freeText =
                switch (ValueRepresentations.of(tag)) {
                    case AE, LO, LT, PN, SH, ST, UC, UR, UT -> true;
                    default -> false;
                };
        if (kept.isEmpty() && freeText) {
            act(removedUnlessRequired(), data, tag, out);
        } else if (kept.isEmpty()) {
            note(tag, Kind.VALUE_NOT_VALID);
        } else if (kept.isPresent() && !kept.get().whole()) {
            note(tag, Kind.VALUE_NOT_VALID);
        }
    }

    private List<DataSet> cleanItems(DataSet data, int tag) {
        List<DataSet> items = new ArrayList<>();
        for (DataSet item : data.items(tag)) {
            if (HarmlessValues.isLocalCode(item)) {
                items.add(HarmlessValues.code());
                note(tag, Kind.CODE_REPLACED);
            } else {
                items.add(clean(item).build());
            }
        }
        return items;
    }

    /** The standard's representation; that of the file for elements which are newer than the dictionary. */
    private static Vr representation(DataSet data, int tag) {
        Vr standard = ValueRepresentations.of(tag);
        return standard == Vr.UN ? data.vr(tag).orElse(Vr.UN) : standard;
    }

    private static boolean isSequence(DataSet data, int tag) {
        return data.bytes(tag).isEmpty();
    }
}
