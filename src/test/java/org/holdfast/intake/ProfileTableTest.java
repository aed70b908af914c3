package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.holdfast.dicom.ValueRepresentations;
import org.holdfast.dicom.Vr;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The profile's table: complete, and resolved only in ways that the table allows. */
final class ProfileTableTest {

    private static final ProfileTable TABLE = ProfileTable.basic();

    /** The tag of a row that is no pattern. */
    static int tag(ProfileTable.Row row) {
        return Integer.parseUnsignedInt(row.tag().replaceAll("[(),]", ""), 16);
    }

    static List<ProfileTable.Row> singleTags() {
        return TABLE.rows().stream().filter(row -> row.tag().indexOf('x') < 0).toList();
    }

    @Test
    void everyTagStandsOnce() {
        Set<String> tags = new HashSet<>();
        TABLE.rows().forEach(row -> assertTrue(tags.add(row.tag()), row.tag()));
        // By hand: rows marked T, as the first line of the resource says.
        assertEquals(
                460, TABLE.rows().stream().filter(row -> row.source() == 'T').count());
    }

    @Test
    void everyChoiceIsOneThatTheTableAllows() {
        for (ProfileTable.Row row : TABLE.rows()) {
            // X/Z/U* of sequences allows X, Z and U.
            for (ProfileAction action : new ProfileAction[] {row.plain(), row.others()}) {
                String letter =
                        switch (action) {
                            case KEEP -> "K";
                            case REMOVE -> "X";
                            case EMPTY -> "Z";
                            case REPLACE -> "D";
                            case MAP_UID -> "U";
                        };
                assertTrue(List.of(row.profile().replace("*", "").split("/")).contains(letter), row.toString());
            }
        }
    }

    @Test
    void modifiedDatesAreForDatesAndTimes() {
        Set<Vr> temporal = Set.of(Vr.DA, Vr.DT, Vr.TM);
        for (ProfileTable.Row row : singleTags()) {
            if (row.modifiedDates()) {
                Vr vr = ValueRepresentations.of(tag(row));
                boolean offset = row.keyword().equals("TimezoneOffsetFromUTC");
                boolean stamp = row.keyword().equals("FrameOriginTimestamp");
                assertTrue(temporal.contains(vr) || offset || stamp, row.toString());
            }
        }
    }

    @ParameterizedTest
    @CsvSource({
        // Source: DICOM PS3.15, table E.1-1.
        "00080050, Z, false",
        "00080080, X/Z/D, false",
        "0008103E, X, false",
        "00081030, X, false",
        "00100010, Z, false",
        "00100030, Z, false",
        "00101010, X, false",
        "00080020, Z, true",
        "00080022, X/Z, true",
        "0008002A, X/Z/D, true",
        "00181000, X/Z/D, false",
        "00200052, U, false",
        "00081140, X/Z/U*, false",
        "0040A730, D, false",
        "00880200, X, false"
    })
    void rowsAreThoseOfTheStandard(String tag, String profile, boolean modifiedDates) {
        ProfileTable.Row row = TABLE.row(Integer.parseUnsignedInt(tag, 16)).orElseThrow();
        assertEquals(profile, row.profile());
        assertEquals(modifiedDates, row.modifiedDates());
    }

    @Test
    void patternsCoverTheirGroups() {
        assertEquals(ProfileTable.PRIVATE, TABLE.row(0x00091001).orElseThrow().tag());
        assertEquals("CurveData", TABLE.row(0x50023000).orElseThrow().keyword());
        assertEquals("OverlayPlane", TABLE.row(0x601E4000).orElseThrow().keyword());
        assertTrue(TABLE.row(0x52009229).isEmpty());
    }

    @ParameterizedTest
    @CsvSource({
        "00080008", "00180015", "00180050", "00180060", "00180088", "00180090", "00181100", "00181120", "00181151",
        "00181152", "00181164", "00189323", "00185100", "00200012", "00200013", "00200032", "00200037", "00201041",
        "00280010", "00280011", "00280030", "00280100", "00280120", "00281050", "00281052", "00281053", "00282110"
    })
    void saysNothingAboutWhatMeasurementNeeds(String tag) {
        assertTrue(TABLE.row(Integer.parseUnsignedInt(tag, 16)).isEmpty());
    }
}
