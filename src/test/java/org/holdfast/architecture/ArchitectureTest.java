package org.holdfast.architecture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Keeps the arrows between packages, and the other rules of the house, in the program as it stands. */
final class ArchitectureTest {

    private static final JavaClasses CLASSES = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("org.holdfast");

    private static final ArchitectureRules RULES = new ArchitectureRules("org.holdfast", PackageTable.ofHoldfast());

    static Set<String> rows() {
        return PackageTable.ofHoldfast().rows();
    }

    @Test
    void looksAtTheProgram() {
        assertFalse(CLASSES.isEmpty());
    }

    @ParameterizedTest
    @MethodSource("rows")
    void packageUsesOnlyWhatItsRowAllows(String name) {
        RULES.usesOnlyWhatItsRowAllows(name).check(CLASSES);
    }

    @Test
    void everyPackageHasARow() {
        RULES.everyPackageHasARow().check(CLASSES);
    }

    @Test
    void packagesHaveNoCycles() {
        RULES.packagesHaveNoCycles().check(CLASSES);
    }

    @ParameterizedTest
    @CsvSource({
        "java.sql.., store",
        "javax.sql.., store",
        "javafx.., desktop",
        "ij.., regions",
        "jj2000.., dicom",
        "com.github.jaiimageio.., dicom",
        "org.apache.pdfbox.., exchange",
        "picocli.., cli",
    })
    void libraryStaysInItsPackage(String library, String owner) {
        RULES.onlyIn(library, owner).check(CLASSES);
    }

    @Test
    void pictureFilesAreCodedOnlyInDicomFigureAndDesktop() {
        RULES.onlyIn("javax.imageio..", "dicom", "figure", "desktop").check(CLASSES);
    }

    @Test
    void drawingToolkitStaysInTheDesktop() {
        RULES.drawingToolkitOnlyInDesktop("PngWriter").check(CLASSES);
    }

    @Test
    void viewModelsKnowNoNode() {
        RULES.viewModelsKnowNoNode("javafx.scene.Node").check(CLASSES);
    }

    @Test
    void namesSayWhatThingsAre() {
        RULES.namesSayWhatThingsAre().check(CLASSES);
    }

    @Test
    void nobodyCatchesEveryException() {
        RULES.nobodyCatchesEveryException().check(CLASSES);
    }

    @Test
    void everyPackageIsDescribed() throws IOException {
        assertEquals(List.of(), PackageDescriptions.missingUnder(Path.of("src/main/java")));
    }
}
