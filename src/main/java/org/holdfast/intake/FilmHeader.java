package org.holdfast.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.dicom.Tag;
import org.holdfast.finding.Finding;
import org.holdfast.volume.FilmFacts;
import org.holdfast.volume.FilmOrientation;
import org.holdfast.volume.LossyCompression;
import org.holdfast.volume.ModalityTransform;
import org.holdfast.volume.PixelScale;
import org.holdfast.volume.StoredFormat;
import org.holdfast.volume.VoiTransform;

/** Reads the way to its greys, scale and orientation of one radiograph from its header; what is odd becomes a finding. */
final class FilmHeader {

    /** Objects whose modality table leads to intensity at the detector and is not for display (PS3.3, C.8.7.1.1.2). */
    private static final String ANGIOGRAPHY = "1.2.840.10008.5.1.4.1.1.12.";

    private final DataSet d;
    private final String where;
    private final List<Finding> findings = new ArrayList<>();

    FilmHeader(DataSet d, String where) {
        this.d = d;
        this.where = where;
    }

    /** What was odd, after {@link #facts}. */
    List<Finding> findings() {
        return List.copyOf(findings);
    }

    FilmFacts facts(PixelLayout layout, PixelScale scale, Optional<LossyCompression> lossy) {
        StoredFormat format = new StoredFormat(Math.min(16, layout.bitsStored()), layout.signed());
        ModalityTransform modality = modality(format);
        boolean signedOutput = modality instanceof ModalityTransform.Line line
                && Math.min(line.apply(format.min()), line.apply(format.max())) < 0;
        List<VoiTransform> windows = new ArrayList<>(tables(signedOutput));
        windows.addAll(windows());
        if (d.string(Tag.PRESENTATION_INTENT_TYPE)
                .orElse("")
                .toUpperCase(Locale.ROOT)
                .equals("FOR PROCESSING")) {
            warn(RadiographFile.FOR_PROCESSING, "raw data for processing, not meant to be looked at as they are");
        }
        return new FilmFacts(
                layout.columns(),
                layout.rows(),
                format,
                modality,
                windows,
                isInverted(layout),
                HuScale.padding(d),
                scale,
                scale.kind() == PixelScale.Kind.NONE ? aspect() : scale.rowMm() / scale.columnMm(),
                orientation(),
                lossy);
    }

    private ModalityTransform modality(StoredFormat format) {
        Optional<ModalityTransform> line = line();
        List<DataSet> tables = d.items(Tag.MODALITY_LUT_SEQUENCE);
        if (tables.isEmpty()) {
            return line.orElse(ModalityTransform.NONE);
        }
        if (d.string(Tag.SOP_CLASS_UID).orElse("").startsWith(ANGIOGRAPHY)) {
            findings.add(Finding.info(
                    "MODALITY_TABLE_NOT_FOR_DISPLAY",
                    "the modality look-up table of an angiography leads to intensity at the detector; it is not applied",
                    where));
            return line.orElse(ModalityTransform.NONE);
        }
        GreyTables.Read read = GreyTables.of(tables.get(0), format.signed());
        if (read.table().isEmpty()) {
            warn("MODALITY_TABLE_UNUSABLE", "the modality look-up table cannot be used: " + read.why());
            return line.orElse(ModalityTransform.NONE);
        }
        if (line.isPresent()) {
            findings.add(Finding.info(
                    "MODALITY_TABLE_AND_LINE",
                    "a modality look-up table beside slope and intercept: the table counts",
                    where));
        }
        return new ModalityTransform.Table(read.table().get());
    }

    private Optional<ModalityTransform> line() {
        if (d.isBlank(Tag.RESCALE_SLOPE) && d.isBlank(Tag.RESCALE_INTERCEPT)) {
            return Optional.empty();
        }
        OptionalDouble slope = d.isBlank(Tag.RESCALE_SLOPE) ? OptionalDouble.of(1) : d.decimal(Tag.RESCALE_SLOPE);
        OptionalDouble intercept =
                d.isBlank(Tag.RESCALE_INTERCEPT) ? OptionalDouble.of(0) : d.decimal(Tag.RESCALE_INTERCEPT);
        if (slope.isEmpty() || intercept.isEmpty() || slope.getAsDouble() == 0) {
            warn("RESCALE_UNUSABLE", "slope and intercept give no line; stored values are shown as they are");
            return Optional.empty();
        }
        return Optional.of(new ModalityTransform.Line(slope.getAsDouble(), intercept.getAsDouble()));
    }

    private List<VoiTransform> tables(boolean signedOutput) {
        List<VoiTransform> tables = new ArrayList<>();
        for (DataSet item : d.items(Tag.VOI_LUT_SEQUENCE)) {
            GreyTables.Read read = GreyTables.of(item, signedOutput);
            String name = item.string(Tag.LUT_EXPLANATION).orElse("");
            if (read.table().isPresent()) {
                tables.add(new VoiTransform.Table(name, read.table().get()));
            } else {
                warn("WINDOW_TABLE_UNUSABLE", "a look-up table in place of a window cannot be used: " + read.why());
            }
        }
        return tables;
    }

    private List<VoiTransform> windows() {
        double[] centres = d.decimals(Tag.WINDOW_CENTER);
        double[] widths = d.decimals(Tag.WINDOW_WIDTH);
        List<String> names = d.strings(Tag.WINDOW_EXPLANATION);
        boolean isSaid = !d.isBlank(Tag.WINDOW_CENTER) || !d.isBlank(Tag.WINDOW_WIDTH);
        if (isSaid && (centres.length != widths.length || centres.length == 0)) {
            warn(
                    "WINDOW_UNUSABLE",
                    centres.length + " window centres and " + widths.length + " window widths that are numbers");
        }
        VoiTransform.Function function = function();
        List<VoiTransform> windows = new ArrayList<>();
        for (int n = 0; n < Math.min(centres.length, widths.length); n++) {
            if (function.allows(widths[n])) {
                windows.add(
                        new VoiTransform.Window(n < names.size() ? names.get(n) : "", centres[n], widths[n], function));
            } else {
                warn("WINDOW_UNUSABLE", "a window of width " + widths[n] + " for function " + function);
            }
        }
        return windows;
    }

    private VoiTransform.Function function() {
        String said = d.string(Tag.VOI_LUT_FUNCTION).orElse("").toUpperCase(Locale.ROOT);
        return switch (said) {
            case "LINEAR", "" -> VoiTransform.Function.LINEAR;
            case "LINEAR_EXACT" -> VoiTransform.Function.LINEAR_EXACT;
            case "SIGMOID" -> VoiTransform.Function.SIGMOID;
            default -> {
                warn("WINDOW_FUNCTION_UNKNOWN", "window function " + said + " is not known; drawn as LINEAR");
                yield VoiTransform.Function.LINEAR;
            }
        };
    }

    /** Both attributes name the same inversion: it is done once if either does (PS3.3, section C.8.11.3). */
    private boolean isInverted(PixelLayout layout) {
        boolean lowIsWhite = layout.photometric().equals("MONOCHROME1");
        String shape = d.string(Tag.PRESENTATION_LUT_SHAPE).orElse("").toUpperCase(Locale.ROOT);
        boolean disagree = lowIsWhite ? shape.equals("IDENTITY") : shape.equals("INVERSE");
        if (disagree) {
            warn(
                    "INVERSION_UNCLEAR",
                    layout.photometric() + " with presentation shape " + shape
                            + ": one says that low values are light, the other does not; they are drawn light");
        }
        return lowIsWhite || shape.equals("INVERSE");
    }

    /** PixelAspectRatio, vertical to horizontal (PS3.3, section C.7.6.3.1.7); 1 where not said. */
    private double aspect() {
        double[] ratio = d.decimals(Tag.PIXEL_ASPECT_RATIO);
        return ratio.length == 2 && ratio[0] > 0 && ratio[1] > 0 ? ratio[0] / ratio[1] : 1;
    }

    private FilmOrientation orientation() {
        List<String> said = d.strings(Tag.PATIENT_ORIENTATION);
        boolean isUsable = said.size() == 2
                && FilmOrientation.isDirection(said.get(0))
                && FilmOrientation.isDirection(said.get(1));
        if (!isUsable) {
            warn("ORIENTATION_NOT_SAID", "the file does not say which way the radiograph lies: which side is left?");
        }
        return new FilmOrientation(
                isUsable ? said.get(0) : "", isUsable ? said.get(1) : "", laterality(), viewPosition());
    }

    private String laterality() {
        String said = d.string(Tag.IMAGE_LATERALITY)
                .or(() -> d.string(Tag.LATERALITY))
                .orElse("");
        return said.matches("[RLB]") ? said : "";
    }

    private String viewPosition() {
        return d.string(Tag.VIEW_POSITION)
                .or(() -> d.item(Tag.VIEW_CODE_SEQUENCE).flatMap(code -> code.string(Tag.CODE_MEANING)))
                .orElse("");
    }

    private void warn(String code, String text) {
        findings.add(Finding.warning(code, text, where));
    }
}
