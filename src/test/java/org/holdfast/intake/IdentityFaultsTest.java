package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Uid;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Contradicting and missing identifiers are said; nobody's name or number is. */
class IdentityFaultsTest {

    @TempDir
    Path folder;

    @Test
    void oneStudyOnTwoPatients() {
        series("a", b -> b.string(Tag.PATIENT_ID, "NUMBER-A"));
        series("b", b -> b.string(Tag.PATIENT_ID, "NUMBER-B"));
        assertTrue(text("STUDY_OF_SEVERAL_PATIENTS").contains("patients 1 and 2"));
    }

    @Test
    void oneNumberWithTwoNames() {
        series("a", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_NAME, "Doe^Jane"));
        series("b", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_NAME, "Roe^Ann"));
        assertTrue(text("PATIENT_ID_WITH_SEVERAL_NAMES").contains("patients 1 and 2"));
    }

    @ParameterizedTest
    @CsvSource({
        "Doe^Jane,DOE^JANE",
        "Doe^Jane,doe jane",
        "Doe^Jane^^Dr,Doe^Jane",
        "Müller^Änne,MULLER^ANNE",
        "Yamada^Tarou=山田^太郎=やまだ^たろう,YAMADA^TAROU",
        "Yamada^Tarou=山田^太郎,=山田^太郎"
    })
    void oneNameWrittenTwoWaysIsOneName(String first, String second) {
        assertTrue(PersonName.isSame(first, second), first + " / " + second);
    }

    @ParameterizedTest
    @CsvSource({"Doe^Jane,Doe^John", "Yamada^Tarou=山田^太郎,=山本^太郎", "Doe^Jane,=山田^太郎"})
    void otherNamesAreOtherNames(String first, String second) {
        assertFalse(PersonName.isSame(first, second), first + " / " + second);
    }

    @Test
    void looseWritingIsNoFault() {
        series("a", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_NAME, "Doe^Jane"));
        series("b", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_NAME, "DOE JANE"));
        assertEquals(Optional.empty(), finding("PATIENT_ID_WITH_SEVERAL_NAMES"));
        assertEquals(List.of(1, 1), report().patientNumbers());
    }

    @Test
    void oneNumberWithTwoBirthDates() {
        series("a", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_BIRTH_DATE, "19700101"));
        series("b", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_BIRTH_DATE, "19700102"));
        assertTrue(text("PATIENT_ID_WITH_SEVERAL_BIRTH_DATES").contains("2 birth dates"));
    }

    @Test
    void namesakesOfOtherBirthDatesAreTwoPatients() {
        series("a", b -> b.string(Tag.PATIENT_NAME, "Doe^Jane").string(Tag.PATIENT_BIRTH_DATE, "19700101"));
        series("b", b -> b.string(Tag.PATIENT_NAME, "Doe^Jane").string(Tag.PATIENT_BIRTH_DATE, "19800101"));
        series("c", b -> b.string(Tag.PATIENT_ID, "1").string(Tag.PATIENT_BIRTH_DATE, "19700101"));
        series("d", b -> b.string(Tag.PATIENT_ID, "1").string(Tag.PATIENT_BIRTH_DATE, "19800101"));
        assertEquals(4, report().patientNumbers().stream().distinct().count());
    }

    @Test
    void oneBirthDateInTwoFormsIsNoFault() {
        series("a", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_BIRTH_DATE, "19700101"));
        series("b", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_BIRTH_DATE, "1970.01.01"));
        assertEquals(Optional.empty(), finding("PATIENT_ID_WITH_SEVERAL_BIRTH_DATES"));
    }

    @Test
    void oneInstanceOnDifferentPixels() {
        series("a", b -> b.string(Tag.SOP_INSTANCE_UID, "1.2.3"));
        series("b", b -> b.string(Tag.SOP_INSTANCE_UID, "1.2.3").words(Tag.PIXEL_DATA, CtFiles.filled(5)));
        assertEquals(
                "1.2.3", finding("INSTANCE_UID_WITH_OTHER_PIXELS").orElseThrow().where());
    }

    @Test
    void copiesOfAnInstanceAreNoFault() {
        series("a", b -> b.string(Tag.SOP_INSTANCE_UID, "1.2.3"));
        series("b", b -> b.string(Tag.SOP_INSTANCE_UID, "1.2.3").string(Tag.PATIENT_COMMENTS, "another header"));
        assertEquals(Optional.empty(), finding("INSTANCE_UID_WITH_OTHER_PIXELS"));
    }

    @Test
    void aStandInForANameTellsNobodyApart() {
        series("a", b -> b.string(Tag.PATIENT_NAME, "Anonymized").string(Tag.STUDY_INSTANCE_UID, "1.2.1"));
        series("b", b -> b.string(Tag.PATIENT_NAME, "ANONYMIZED").string(Tag.STUDY_INSTANCE_UID, "1.2.2"));
        series("c", b -> b.string(Tag.PATIENT_ID, "anonymous").string(Tag.STUDY_INSTANCE_UID, "1.2.3"));
        assertEquals(List.of(1, 2, 3), report().patientNumbers());
    }

    @Test
    void pixelsThatCannotBeReadAreNoFault() {
        series("a", b -> b.string(Tag.SOP_INSTANCE_UID, "1.2.3"));
        series("b", b -> b.string(Tag.SOP_INSTANCE_UID, "1.2.3").integers(Tag.BITS_ALLOCATED, 32));
        assertEquals(Optional.empty(), finding("INSTANCE_UID_WITH_OTHER_PIXELS"));
    }

    @Test
    void missingUids() {
        series("a", b -> b.remove(Tag.SERIES_INSTANCE_UID).remove(Tag.STUDY_INSTANCE_UID));
        for (String code : List.of("MISSING_SERIES_UID", "MISSING_STUDY_UID")) {
            assertTrue(text(code).startsWith("1 file has no "), code);
        }
    }

    @Test
    void namesAndNumbersAreNotPrinted() {
        series("a", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_NAME, "Doe^Jane"));
        series("b", b -> b.string(Tag.PATIENT_ID, "NUMBER-A").string(Tag.PATIENT_NAME, "Roe^Ann"));
        series("c", b -> b.string(Tag.PATIENT_ID, "NUMBER-C").string(Tag.PATIENT_NAME, "Roe^Ann"));
        String all = report().findings().toString();
        for (String secret : List.of("NUMBER-A", "NUMBER-C", "Doe", "Roe", "Jane")) {
            assertFalse(all.contains(secret), all);
        }
        assertTrue(all.contains("NAME_WITH_SEVERAL_PATIENT_IDS"), all);
    }

    private void series(String name, UnaryOperator<DataSet.Builder> change) {
        DataSet.Builder b = CtFiles.slice(name, 0, 1000).string(Tag.SERIES_INSTANCE_UID, Uid.fromName(name));
        CtFiles.write(folder, name, change.apply(b).build());
    }

    private IntakeReport report() {
        return Intake.scan(List.of(folder), Progress.NONE);
    }

    private Optional<Finding> finding(String code) {
        return report().findings().stream().filter(f -> f.code().equals(code)).findFirst();
    }

    private String text(String code) {
        return finding(code).orElseThrow().text();
    }
}
