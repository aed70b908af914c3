package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.holdfast.cases.CaseFiles;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.Tag;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

/** Order of real slices, and copies of a real slice. */
class StackCasesTest {

    @Test
    void slicesFollowTheirPositionsNotTheirNumbers() throws Exception {
        Set<String> found = new TreeSet<>();
        Set<String> expected = new TreeSet<>();
        for (Map<String, String> row : CaseFiles.table("GEOMETRY.tsv")) {
            if (Double.parseDouble(row.get("same (col,row) first->last slice, patient mm")) > 0) {
                // Source: GEOMETRY.tsv, column "instance numbers in geometric order"
                expected.add(row.get("series_folder") + " " + row.get("instance numbers in geometric order"));
            }
        }
        for (String folder : CaseFiles.table("GEOMETRY.tsv").stream()
                .map(row -> row.get("series_folder"))
                .distinct()
                .toList()) {
            for (Series series : Intake.scan(List.of(CaseFiles.path("A_series/" + folder)), Progress.NONE)
                    .series()) {
                for (Stack stack : series.stacks()) {
                    found.add(folder + " " + instanceNumbers(stack));
                }
            }
        }
        // Source: MANIFEST.tsv: mf_mf.dcm is the same three slices as one file, whose InstanceNumber is 1
        expected.add("small_24x38x3 1,1,1");
        assertEquals(expected, found);
    }

    @Test
    void oneSliceInTwoByteOrdersIsOneSlice() throws Exception {
        // Source: MANIFEST.tsv: the same CT slice in big endian and implicit little endian
        List<Series> series = Intake.scan(
                        List.of(
                                CaseFiles.path("C_syntax_ct1/CT1_UNC.explicit_big_endian.dcm"),
                                CaseFiles.path("C_syntax_ct1/CT1_UNC.implicit_little_endian.dcm")),
                        Progress.NONE)
                .series();
        assertEquals(1, series.get(0).stacks().get(0).slices().size());
    }

    private static String instanceNumbers(Stack stack) throws DicomReadException {
        List<String> numbers = new ArrayList<>();
        for (Slice slice : stack.slices()) {
            numbers.add(DicomReader.read(slice.path())
                    .dataSet()
                    .string(Tag.INSTANCE_NUMBER)
                    .orElse(""));
        }
        return String.join(",", numbers);
    }
}
