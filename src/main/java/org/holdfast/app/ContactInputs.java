package org.holdfast.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.construct.ConstructReadException;
import org.holdfast.finding.FileFailure;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.SettingsException;
import org.holdfast.measure.SettingsJson;

/**
 * The documents that a measurement starts from.
 *
 * @param construct what was implanted
 * @param settings thresholds
 */
public record ContactInputs(Construct construct, MeasurementSettings settings) {

    /**
     * Reads the documents.
     *
     * @param construct construct document
     * @param settings settings document; null for the defaults
     * @throws UseCaseException if a document cannot be read; names file and field
     */
    public static ContactInputs read(Path construct, Path settings) throws UseCaseException {
        try {
            return new ContactInputs(
                    ConstructJson.read(construct),
                    settings == null
                            ? MeasurementSettings.withDefaults()
                            : SettingsJson.parse(
                                    Files.readString(settings, StandardCharsets.UTF_8), settings.toString()));
        } catch (ConstructReadException | SettingsException e) {
            throw new UseCaseException(e.getMessage(), e);
        } catch (IOException e) {
            throw new UseCaseException(settings + ": cannot be read: " + FileFailure.words(e), e);
        }
    }
}
