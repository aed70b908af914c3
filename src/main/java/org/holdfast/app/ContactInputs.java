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
import org.holdfast.measure.SettingsPreset;

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
        Construct read = construct(construct);
        if (settings == null) {
            return new ContactInputs(read, MeasurementSettings.withDefaults());
        }
        try {
            return new ContactInputs(
                    read, SettingsJson.parse(Files.readString(settings, StandardCharsets.UTF_8), settings.toString()));
        } catch (SettingsException e) {
            throw new UseCaseException(e.getMessage(), e);
        } catch (IOException e) {
            throw new UseCaseException(settings + ": cannot be read: " + FileFailure.words(e), e);
        }
    }

    /**
     * The same with the settings of a preset.
     *
     * @param construct construct document
     * @throws UseCaseException if it cannot be read; names file and field
     */
    public static ContactInputs read(Path construct, SettingsPreset preset) throws UseCaseException {
        return new ContactInputs(construct(construct), preset.settings());
    }

    /**
     * Reads a construct document.
     *
     * @throws UseCaseException if it cannot be read; names file and field
     */
    static Construct construct(Path file) throws UseCaseException {
        try {
            return ConstructJson.read(file);
        } catch (ConstructReadException e) {
            throw new UseCaseException(e.getMessage(), e);
        }
    }
}
