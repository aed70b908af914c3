package org.holdfast.app;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Objects;
import java.util.Properties;

/**
 * Which software made a result. Immutable.
 *
 * @param name name of the program
 * @param version its version, as the build wrote it
 */
public record Software(String name, String version) {

    private static final String RESOURCE = "software.properties";

    public Software {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(version, "version");
    }

    /**
     * The software that is running.
     *
     * @throws UncheckedIOException if the program's own resource is missing or unreadable: the installation is damaged
     */
    public static Software running() {
        try (InputStream in = Software.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IOException("resource " + RESOURCE + " is missing from the installation");
            }
            Properties properties = new Properties();
            properties.load(in);
            return new Software("holdfast", properties.getProperty("version", "unknown"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Name and version as one string, the form that results carry. */
    @Override
    public String toString() {
        return name + " " + version;
    }
}
