package org.holdfast.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.HashMap;
import java.util.Map;
import org.holdfast.progress.Progress;

/** Unpacks an archive once, however often it is looked at, as long as it does not change. Thread-safe. */
final class UnpackedArchives {

    private record Key(Path archive, long bytes, FileTime changed, ZipLimits limits) {}

    private static final Map<Key, InputFiles> DONE = new HashMap<>();

    private UnpackedArchives() {}

    static InputFiles open(Path archive, ZipLimits limits, Progress progress) throws IOException {
        Key key = new Key(archive, Files.size(archive), Files.getLastModifiedTime(archive), limits);
        synchronized (DONE) {
            InputFiles known = DONE.get(key);
            if (known == null || !isStillThere(known)) {
                known = ZipUnpacker.unpack(archive, limits, progress);
                DONE.put(key, known);
            }
            return known;
        }
    }

    /** Systems clear their temporary files while programs run. */
    private static boolean isStillThere(InputFiles unpacked) {
        return unpacked.files().stream().allMatch(file -> Files.isRegularFile(file.path()));
    }
}
