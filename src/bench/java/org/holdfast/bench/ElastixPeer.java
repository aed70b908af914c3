package org.holdfast.bench;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/** elastix in a process of its own, on files in a temporary folder. */
final class ElastixPeer {

    private static final Path ELASTIX = Path.of("/usr/bin/elastix");

    /** Euler transform, mutual information, 4 levels of 500 iterations, new random places for each iteration. */
    private static final String PARAMETERS =
            """
            (FixedInternalImagePixelType "float")
            (MovingInternalImagePixelType "float")
            (FixedImageDimension 3)
            (MovingImageDimension 3)
            (UseDirectionCosines "true")
            (Registration "MultiResolutionRegistration")
            (Interpolator "LinearInterpolator")
            (ResampleInterpolator "FinalBSplineInterpolator")
            (Resampler "DefaultResampler")
            (FixedImagePyramid "FixedRecursiveImagePyramid")
            (MovingImagePyramid "MovingRecursiveImagePyramid")
            (Optimizer "AdaptiveStochasticGradientDescent")
            (Transform "EulerTransform")
            (Metric "AdvancedMattesMutualInformation")
            (AutomaticScalesEstimation "true")
            (AutomaticTransformInitialization "true")
            (HowToCombineTransforms "Compose")
            (NumberOfHistogramBins 32)
            (NumberOfResolutions 4)
            (MaximumNumberOfIterations 500)
            (NumberOfSpatialSamples 2048)
            (NewSamplesEveryIteration "true")
            (ImageSampler "RandomCoordinate")
            (WriteResultImage "false")
            """;

    /**
     * What a run gave.
     *
     * @param seconds of the whole run, reading of the two files included, as elastix itself prints them
     */
    record Answer(RigidTransform fixedToMoving, double seconds) {}

    private ElastixPeer() {}

    /** Registers two volumes on unsheared grids; empty where elastix is missing. */
    static Optional<Answer> register(HuVolume fixed, HuVolume moving) throws IOException, InterruptedException {
        if (!Files.isExecutable(ELASTIX)) {
            return Optional.empty();
        }
        Path folder = Files.createTempDirectory("holdfast-register");
        try {
            write(fixed, folder, "fixed");
            write(moving, folder, "moving");
            Files.writeString(folder.resolve("parameters.txt"), PARAMETERS);
            Process process = new ProcessBuilder(
                            ELASTIX.toString(),
                            "-f",
                            "fixed.mhd",
                            "-m",
                            "moving.mhd",
                            "-p",
                            "parameters.txt",
                            "-out",
                            ".",
                            "-threads",
                            Integer.toString(Runtime.getRuntime().availableProcessors()))
                    .directory(folder.toFile())
                    .redirectErrorStream(true)
                    .redirectOutput(folder.resolve("elastix.out").toFile())
                    .start();
            int code = process.waitFor();
            if (code != 0) {
                throw new IOException("elastix ended with " + code + ": " + folder);
            }
            String log = Files.readString(folder.resolve("elastix.log"));
            return Optional.of(new Answer(transform(folder.resolve("TransformParameters.0.txt")), seconds(log)));
        } finally {
            RegisterBenchmark.delete(folder);
        }
    }

    /** What elastix itself says it took; its last span for the whole run, reading of files included. */
    private static double seconds(String log) throws IOException {
        Matcher total = Pattern.compile("Total time elapsed: (?:(\\d+)h)?(?:(\\d+)m)?([0-9.]*[0-9])s")
                .matcher(log);
        if (!total.find()) {
            throw new IOException("elastix printed no total time");
        }
        double hours = total.group(1) == null ? 0 : Double.parseDouble(total.group(1));
        double minutes = total.group(2) == null ? 0 : Double.parseDouble(total.group(2));
        return 3600 * hours + 60 * minutes + Double.parseDouble(total.group(3));
    }

    private static void write(HuVolume volume, Path folder, String name) throws IOException {
        VolumeGrid grid = volume.grid();
        double pitch = grid.pitchMm().orElseThrow();
        String header = String.format(
                Locale.ROOT,
                "ObjectType = Image%nNDims = 3%nBinaryData = True%nBinaryDataByteOrderMSB = False%n"
                        + "TransformMatrix = %s %s %s%nOffset = %s%nElementSpacing = %.9f %.9f %.9f%n"
                        + "DimSize = %d %d %d%nElementType = MET_SHORT%nElementDataFile = %s.raw%n",
                numbers(grid.rowDirection()),
                numbers(grid.columnDirection()),
                numbers(grid.normal()),
                numbers(grid.sliceOrigin(0).minus(PatientPoint.ORIGIN)),
                grid.columnSpacingMm(),
                grid.rowSpacingMm(),
                pitch,
                grid.columns(),
                grid.rows(),
                grid.slices(),
                name);
        Files.writeString(folder.resolve(name + ".mhd"), header, StandardCharsets.US_ASCII);
        float[] slice = new float[grid.columns() * grid.rows()];
        ByteBuffer bytes = ByteBuffer.allocate(2 * slice.length).order(ByteOrder.LITTLE_ENDIAN);
        try (OutputStream raw = Files.newOutputStream(folder.resolve(name + ".raw"))) {
            for (int k = 0; k < grid.slices(); k++) {
                volume.copySlice(k, slice);
                bytes.clear();
                for (float hu : slice) {
                    bytes.putShort((short) Math.round(hu));
                }
                raw.write(bytes.array());
            }
        }
    }

    private static String numbers(PatientVector v) {
        return String.format(Locale.ROOT, "%.12f %.12f %.12f", v.x(), v.y(), v.z());
    }

    /** x ↦ R (x − c) + c + t with R = Rz Rx Ry, the order of ITK's Euler transform. */
    private static RigidTransform transform(Path file) throws IOException {
        double[] p = parameter(file, "TransformParameters");
        double[] c = parameter(file, "CenterOfRotationPoint");
        PatientPoint centre = new PatientPoint(c[0], c[1], c[2]);
        return RigidTransform.rotation(PatientVector.POSTERIOR, Math.toDegrees(p[1]), centre)
                .then(RigidTransform.rotation(PatientVector.LEFT, Math.toDegrees(p[0]), centre))
                .then(RigidTransform.rotation(PatientVector.CRANIAL, Math.toDegrees(p[2]), centre))
                .then(RigidTransform.translation(new PatientVector(p[3], p[4], p[5])));
    }

    private static double[] parameter(Path file, String name) throws IOException {
        for (String line : Files.readAllLines(file)) {
            if (line.startsWith("(" + name + " ")) {
                String words = line.substring(name.length() + 2, line.indexOf(')'));
                return Arrays.stream(words.strip().split(" "))
                        .mapToDouble(Double::parseDouble)
                        .toArray();
            }
        }
        throw new IOException("elastix wrote no " + name);
    }
}
