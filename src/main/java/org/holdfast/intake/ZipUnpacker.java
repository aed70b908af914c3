package org.holdfast.intake;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.zip.CRC32;
import java.util.zip.Inflater;
import java.util.zip.InflaterInputStream;
import java.util.zip.ZipException;
import org.holdfast.finding.FileFailure;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;

/**
 * Unpacks the files of a zip archive into a private folder, under numbers: an entry's name is shown to people and never
 * names a file. What cannot be unpacked is listed and stops nothing, unless the archive as a whole unpacks to too much.
 */
final class ZipUnpacker {

    /** Room that is left on the disk, bytes. */
    private static final long ROOM_LEFT = 256L << 20;

    private static final int ARCHIVE_START = 0x504B0304;

    /** The whole archive is refused. */
    private static final class TooMuchException extends IOException {
        private static final long serialVersionUID = 1;

        TooMuchException(String message) {
            super(message);
        }
    }

    private final Path archive;
    private final ZipLimits limits;
    private final List<SourceFile> files = new ArrayList<>();
    private final List<IntakeReport.Unreadable> unreadable = new ArrayList<>();
    private final List<Finding> findings = new ArrayList<>();
    private long total;

    private ZipUnpacker(Path archive, ZipLimits limits) {
        this.archive = archive;
        this.limits = limits;
    }

    /**
     * @throws IOException if the archive as a whole cannot be unpacked; its message says why
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    static InputFiles unpack(Path archive, ZipLimits limits, Progress progress) throws IOException {
        ZipUnpacker unpacker = new ZipUnpacker(archive, limits);
        boolean done = false;
        Path folder = PrivateFolders.create();
        try (FileChannel file = FileChannel.open(archive, StandardOpenOption.READ)) {
            unpacker.unpackAll(file, folder, progress);
            done = true;
        } finally {
            if (!done) {
                PrivateFolders.remove(folder);
            }
        }
        return new InputFiles(unpacker.files, unpacker.unreadable, unpacker.findings);
    }

    /** Whether a file starts as a zip archive with at least one entry does. */
    static boolean isArchive(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            byte[] start = in.readNBytes(4);
            return start.length == 4 && ByteBuffer.wrap(start).getInt() == ARCHIVE_START;
        }
    }

    private void unpackAll(FileChannel file, Path folder, Progress progress) throws IOException {
        List<ZipDirectory.Entry> entries = ZipDirectory.read(file, limits.entries());
        int number = 0;
        for (ZipDirectory.Entry entry : entries) {
            progress.stopIfCancelled();
            progress.report((double) number / entries.size(), "unpacking " + archive.getFileName());
            number++;
            if (!entry.isFolder() && !Clutter.isClutter(entry.name())) {
                unpack(file, entry, folder.resolve(Integer.toString(number)), progress);
            }
        }
        long outside = entries.stream().filter(e -> leadsOut(e.name())).count();
        if (outside > 0) {
            findings.add(Finding.warning(
                    "ARCHIVE_NAMES_LEAD_OUT",
                    outside + " names in the archive lead out of it; they were taken as names only",
                    archive.toString()));
        }
    }

    private void unpack(FileChannel file, ZipDirectory.Entry entry, Path target, Progress progress) throws IOException {
        SourceFile source = new SourceFile(target, archive + "!" + entry.name());
        String refused = refusal(entry);
        if (refused != null) {
            unreadable.add(new IntakeReport.Unreadable(source.name(), refused));
            return;
        }
        try {
            write(file, entry, target, progress);
            files.add(source);
        } catch (TooMuchException e) {
            throw e;
        } catch (IOException e) {
            Files.deleteIfExists(target);
            unreadable.add(new IntakeReport.Unreadable(source.name(), FileFailure.words(e)));
        }
    }

    private static String refusal(ZipDirectory.Entry entry) {
        if (entry.encrypted()) {
            return "it is encrypted: unpack the archive with its password first";
        }
        if (entry.link()) {
            return "a link inside an archive is not followed";
        }
        boolean known = entry.method() == ZipDirectory.STORED || entry.method() == ZipDirectory.DEFLATED;
        return known
                ? null
                : "compressed by method " + entry.method() + ", which is not read; unpack the archive first";
    }

    private void write(FileChannel file, ZipDirectory.Entry entry, Path target, Progress progress) throws IOException {
        InputStream packed = new BoundedInput(file, ZipDirectory.dataAt(file, entry), entry.compressedBytes());
        Inflater inflater = new Inflater(true);
        CRC32 crc = new CRC32();
        byte[] chunk = new byte[1 << 16];
        long written = 0;
        try (InputStream in =
                        entry.method() == ZipDirectory.STORED ? packed : new InflaterInputStream(packed, inflater);
                OutputStream out = Files.newOutputStream(target, StandardOpenOption.CREATE_NEW)) {
            for (int n = in.read(chunk); n >= 0; n = in.read(chunk)) {
                if (written == 0 && n >= 4 && ByteBuffer.wrap(chunk).getInt() == ARCHIVE_START) {
                    throw new ZipException("an archive inside an archive is not opened: unpack it first");
                }
                progress.stopIfCancelled();
                written += n;
                total += n;
                check(entry, written, target);
                crc.update(chunk, 0, n);
                out.write(chunk, 0, n);
            }
        } finally {
            inflater.end();
        }
        if (crc.getValue() != entry.crc()) {
            throw new ZipException("its check sum is wrong: it is damaged");
        }
    }

    private void check(ZipDirectory.Entry entry, long written, Path target) throws IOException {
        if (limits.isTooMuch(written, entry.compressedBytes())) {
            throw new ZipException(String.format(
                    Locale.ROOT,
                    "it unpacks to more than %d times its size: not trusted, stopped after %d bytes",
                    limits.ratio(),
                    written));
        }
        if (total > limits.totalBytes() || limits.isTooMuch(total, Files.size(archive))) {
            throw new TooMuchException(String.format(
                    Locale.ROOT, "the archive unpacks to too much: not trusted, stopped after %d bytes", total));
        }
        if (written % (64L << 20) < 1 << 16 && Files.getFileStore(target).getUsableSpace() < ROOM_LEFT) {
            throw new TooMuchException("there is no room on the disk to unpack the archive");
        }
    }

    private static boolean leadsOut(String name) {
        return name.startsWith("/")
                || name.startsWith("\\")
                || name.matches("[A-Za-z]:.*")
                || List.of(name.split("[/\\\\]")).contains("..");
    }
}
