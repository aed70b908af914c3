package org.holdfast.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.LossyCompression;

/** Fills in how an image was made, from attributes of its header and words in its free text. */
final class AcquisitionFacts {

    private static final int MULTI_ENERGY_ACQUISITION_SEQUENCE = 0x00189362;
    private static final int MULTI_ENERGY_DETECTOR_SEQUENCE = 0x0018936F;
    private static final int MULTI_ENERGY_DETECTOR_TYPE = 0x00189372;

    /** Words by which scanners name metal artefact reduction in kernel, description or ImageType. */
    static final List<String> ARTEFACT_REDUCTION_WORDS = List.of(
            "MAR", "IMAR", "SMAR", "SMARTMAR", "OMAR", "O MAR", "SEMAR", "MARS", "METAL ARTIFACT", "METAL ARTEFACT");

    /** Words by which scanners name iterative or learned reconstruction. */
    static final List<String> RECONSTRUCTION_WORDS = List.of(
            "ASIR",
            "ASIR V",
            "VEO",
            "IRIS",
            "SAFIRE",
            "ADMIRE",
            "QIR",
            "IDOSE",
            "IDOSE4",
            "IMR",
            "AIDR",
            "AIDR3D",
            "AIDR 3D",
            "AICE",
            "DLIR",
            "TRUEFIDELITY",
            "ITERATIVE",
            "MODEL BASED",
            "DEEP LEARNING");

    private static final List<String> CONE_BEAM_WORDS = List.of("CBCT", "CONE BEAM", "CONEBEAM", "C ARM", "DVT");

    private static final List<String> NO_CONTRAST_WORDS = List.of("NO", "NONE", "WITHOUT", "NATIVE", "N A");

    private static final Pattern ENERGY = Pattern.compile("(\\d{2,3}(?:\\.\\d+)?) ?KEV\\b");

    private static final Pattern NO_WORD = Pattern.compile("[^A-Z0-9.]+");

    private AcquisitionFacts() {}

    static Acquisition of(DataSet d, Identity identity, ScanDate date, Optional<LossyCompression> lossy) {
        String kernel = String.join(" ", d.strings(Tag.CONVOLUTION_KERNEL)).trim();
        String words = words(Stream.of(
                kernel,
                identity.description(),
                String.join(" ", identity.imageType()),
                d.string(Tag.PROTOCOL_NAME).orElse(""),
                d.string(Tag.SCAN_OPTIONS).orElse("")));
        return new Acquisition(
                date.date(),
                positive(d, Tag.KVP),
                kernel,
                reconstruction(d, words),
                positive(d, Tag.SLICE_THICKNESS),
                positive(d, Tag.RECONSTRUCTION_DIAMETER),
                contrast(d),
                artefactReduction(words),
                energy(words
                        + words(Stream.of(d.string(Tag.DERIVATION_DESCRIPTION).orElse("")))),
                detector(d),
                (d.string(Tag.MANUFACTURER).orElse("") + " "
                                + d.string(Tag.MANUFACTURER_MODEL_NAME).orElse(""))
                        .trim(),
                d.string(Tag.PATIENT_POSITION).orElse(""),
                coneBeam(identity, words),
                lossy);
    }

    /** Yes if a word of the table is there, no if one is there behind "no" or "without", else unknown. */
    static Known artefactReduction(String words) {
        for (String word : ARTEFACT_REDUCTION_WORDS) {
            if (isNegated(words, word)) {
                return Known.NO;
            }
        }
        return containsOne(words, ARTEFACT_REDUCTION_WORDS).isPresent() ? Known.YES : Known.UNKNOWN;
    }

    /** Energy of a virtual monoenergetic image, keV: a number from 30 to 200 before "keV". */
    static OptionalDouble energy(String words) {
        Matcher m = ENERGY.matcher(words);
        while (m.find()) {
            double keV = Double.parseDouble(m.group(1));
            if (keV >= 30 && keV <= 200) {
                return OptionalDouble.of(keV);
            }
        }
        return OptionalDouble.empty();
    }

    /**
     * The words of a header's free texts that this package understands, and nothing else of them: they say how the image
     * was made and name nobody. In the order of the tables, with the word that negates one before it.
     */
    static List<String> tellingWords(DataSet d) {
        String words = words(Stream.of(
                String.join(" ", d.strings(Tag.CONVOLUTION_KERNEL)),
                d.string(Tag.SERIES_DESCRIPTION).orElse(""),
                d.string(Tag.PROTOCOL_NAME).orElse(""),
                d.string(Tag.SCAN_OPTIONS).orElse(""),
                d.string(Tag.DERIVATION_DESCRIPTION).orElse("")));
        List<String> telling = new ArrayList<>();
        for (String word : ARTEFACT_REDUCTION_WORDS) {
            if (words.contains(" " + word + " ")) {
                telling.add(isNegated(words, word) ? "NO " + word : word);
            }
        }
        Stream.concat(RECONSTRUCTION_WORDS.stream(), CONE_BEAM_WORDS.stream())
                .filter(word -> words.contains(" " + word + " "))
                .forEach(telling::add);
        OptionalDouble energy = energy(words);
        if (energy.isPresent()) {
            telling.add(Math.round(energy.getAsDouble()) + " KEV");
        }
        // A word that is a name too tells more than it should.
        String names = words(d.strings(Tag.PATIENT_NAME).stream());
        telling.removeIf(word -> names.contains(" " + word + " "));
        return telling;
    }

    private static boolean isNegated(String words, String word) {
        return words.contains(" NO " + word + " ")
                || words.contains(" WITHOUT " + word + " ")
                || words.contains(" NON " + word + " ");
    }

    /** Free texts as upper-case words with one blank before, between and behind. */
    static String words(Stream<String> texts) {
        String joined = String.join(" ", texts.toList()).toUpperCase(Locale.ROOT);
        return " " + NO_WORD.matcher(joined).replaceAll(" ").trim() + " ";
    }

    private static String reconstruction(DataSet d, String words) {
        Optional<String> said = d.string(Tag.RECONSTRUCTION_ALGORITHM);
        boolean plain = said.isPresent() && said.get().toUpperCase(Locale.ROOT).startsWith("FILTER");
        if (said.isPresent() && !plain) {
            return said.get();
        }
        return containsOne(words, RECONSTRUCTION_WORDS).orElse("");
    }

    private static Known contrast(DataSet d) {
        Optional<String> agent = d.string(Tag.CONTRAST_BOLUS_AGENT);
        if (agent.isEmpty()) {
            return Known.UNKNOWN;
        }
        String words = words(Stream.of(agent.get()));
        boolean none = NO_CONTRAST_WORDS.stream().anyMatch(word -> words.startsWith(" " + word + " "));
        return none ? Known.NO : Known.YES;
    }

    private static String detector(DataSet d) {
        return d.items(MULTI_ENERGY_ACQUISITION_SEQUENCE).stream()
                .flatMap(acquisition -> acquisition.items(MULTI_ENERGY_DETECTOR_SEQUENCE).stream())
                .flatMap(item -> item.string(MULTI_ENERGY_DETECTOR_TYPE).stream())
                .findFirst()
                .orElse("");
    }

    private static Known coneBeam(Identity identity, String words) {
        boolean angiography = identity.sopClassUid().startsWith("1.2.840.10008.5.1.4.1.1.13.1")
                || identity.modality().equals("XA");
        return angiography || containsOne(words, CONE_BEAM_WORDS).isPresent() ? Known.YES : Known.UNKNOWN;
    }

    private static Optional<String> containsOne(String words, List<String> table) {
        return table.stream().filter(word -> words.contains(" " + word + " ")).findFirst();
    }

    private static OptionalDouble positive(DataSet d, int tag) {
        OptionalDouble value = d.decimal(tag);
        return value.isPresent() && value.getAsDouble() > 0 ? value : OptionalDouble.empty();
    }
}
