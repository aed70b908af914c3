package org.holdfast.measure;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import org.holdfast.construct.Construct;

/**
 * The key that tells whether a stored result still belongs to its inputs: SHA-256 over settings, construct geometry,
 * series hashes and the version of the algorithm. Two results with different keys are never drawn on one line without
 * saying so.
 */
public final class StaleKey {

    /** Raised whenever a change of code changes numbers; 3: poses are registered, estimators by fit. */
    public static final int ALGORITHM_VERSION = 3;

    private StaleKey() {}

    /**
     * The key of a result, hex.
     *
     * @param settings thresholds
     * @param construct the construct; labels do not enter
     * @param seriesSha256 hashes of the series that entered, in the order reference exam, measured exam
     */
    public static String of(MeasurementSettings settings, Construct construct, List<String> seriesSha256) {
        String canonical =
                "{\"algorithmVersion\":" + ALGORITHM_VERSION + ",\"construct\":\"" + construct.geometrySha256()
                        + "\",\"series\":[\"" + String.join("\",\"", seriesSha256) + "\"],\"settings\":"
                        + SettingsJson.write(settings) + "}";
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(canonical.getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
