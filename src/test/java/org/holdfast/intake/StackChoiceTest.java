package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Uid;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which stack of an exam is proposed for measuring. */
class StackChoiceTest {

    @TempDir
    Path folder;

    @Test
    void proposesThinRegularSlicesWithoutArtefactReduction() {
        series("thick", 12, 3, b -> b);
        series("thin", 20, 1, b -> b);
        series("thinner, artefact reduction", 20, 0.5, b -> b.string(Tag.SERIES_DESCRIPTION, "spine MAR"));
        series("two thin slices", 2, 0.25, b -> b);
        series("other modality", 20, 0.1, b -> b.string(Tag.MODALITY, "MR"));
        StackChoice choice = choose(Optional.empty());
        assertEquals(Uid.fromName("thin"), choice.stack().orElseThrow().seriesInstanceUid());
        // By hand: all but the other modality can be measured.
        assertTrue(choice.findings().get(0).text().startsWith("4 stacks could be measured"));
    }

    @Test
    void takesTheNamedSeries() {
        series("thick", 12, 3, b -> b);
        series("thin", 20, 1, b -> b);
        StackChoice choice = choose(Optional.of(Uid.fromName("thick")));
        assertEquals(Uid.fromName("thick"), choice.stack().orElseThrow().seriesInstanceUid());
        assertEquals(List.of(), choice.findings());
    }

    @Test
    void saysWhyNothingCanBeMeasured() {
        series("other modality", 3, 1, b -> b.string(Tag.MODALITY, "MR"));
        assertTrue(choose(Optional.empty()).findings().get(0).text().contains("modality MR has no HU"));
        assertEquals(
                "NO_SUCH_SERIES", choose(Optional.of("1.2.3")).findings().get(0).code());
    }

    private void series(
            String name, int slices, double pitchMm, java.util.function.UnaryOperator<DataSet.Builder> change) {
        for (int k = 0; k < slices; k++) {
            DataSet.Builder b =
                    CtFiles.slice(name + k, k * pitchMm, k).string(Tag.SERIES_INSTANCE_UID, Uid.fromName(name));
            CtFiles.write(folder, name + k, change.apply(b).build());
        }
    }

    private StackChoice choose(Optional<String> uid) {
        return StackChoice.of(Intake.scan(List.of(folder), Progress.NONE), uid);
    }
}
