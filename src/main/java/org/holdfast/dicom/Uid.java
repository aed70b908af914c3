package org.holdfast.dicom;

import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.util.UUID;

/** Makes unique identifiers under the root 2.25, the decimal form of a UUID (PS3.5, annex B.2). */
public final class Uid {

    private Uid() {}

    /** A new identifier from a random UUID; at most 44 characters. */
    public static String random() {
        return of(UUID.randomUUID());
    }

    /** The identifier of a name: the same name gives the same identifier (UUID version 3 of the name's UTF-8 bytes). */
    public static String fromName(String name) {
        return of(UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8)));
    }

    private static String of(UUID uuid) {
        BigInteger high = new BigInteger(Long.toUnsignedString(uuid.getMostSignificantBits()));
        BigInteger low = new BigInteger(Long.toUnsignedString(uuid.getLeastSignificantBits()));
        return "2.25." + high.shiftLeft(64).or(low);
    }
}
