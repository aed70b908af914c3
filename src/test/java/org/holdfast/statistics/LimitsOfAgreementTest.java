package org.holdfast.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;

final class LimitsOfAgreementTest {

    /** The reference values are given to twelve significant digits. */
    private static final double REFERENCE_DIGITS = 1e-9;

    /** The paper prints one or two decimals. */
    private static final double PRINTED_TO_TWO_DECIMALS = 5e-3;

    private static final double PRINTED_TO_ONE_DECIMAL = 5e-2;

    @Test
    void agreesWithThePublishedExampleOfBloodPressure() throws IOException {
        LimitsOfAgreement.Estimate estimate = estimate(LimitsOfAgreement.ofPairs(pressures("J1"), pressures("S1")));
        // Source: Bland & Altman, Stat Methods Med Res 1999;8:135-160, section 2: bias -16.29, SD 19.61 mmHg,
        // limits -54.7 and 22.1 mmHg (printed values from memory; the data and the computed values are not).
        assertEquals(-16.29, estimate.bias(), PRINTED_TO_TWO_DECIMALS);
        assertEquals(19.61, estimate.sd(), PRINTED_TO_TWO_DECIMALS);
        assertEquals(-54.7, estimate.lower(), PRINTED_TO_ONE_DECIMAL);
        assertEquals(22.1, estimate.upper(), PRINTED_TO_ONE_DECIMAL);
        // Computed: Python 3.11, d = J1 - S1; m, s = statistics.mean(d), statistics.stdev(d); m, s, m -+ 1.96 * s
        assertEquals(85, estimate.n());
        assertEquals(-16.2941176471, estimate.bias(), REFERENCE_DIGITS);
        assertEquals(19.6109927442, estimate.sd(), REFERENCE_DIGITS);
        assertEquals(-54.7316634258, estimate.lower(), REFERENCE_DIGITS);
        assertEquals(22.1434281316, estimate.upper(), REFERENCE_DIGITS);
    }

    @Test
    void agreesWithThePublishedExampleOfPeakFlow() {
        // Source: Bland & Altman, Lancet 1986;327:307-310, Table: first readings by large and by mini meter, l/min.
        double[] large = {494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427};
        double[] mini = {512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451};
        LimitsOfAgreement.Estimate estimate = estimate(LimitsOfAgreement.ofPairs(large, mini));
        // Computed: Python 3.11, d = large - mini; m, s = statistics.mean(d), statistics.stdev(d); m, s, m -+ 1.96 * s
        assertEquals(-2.117647058824, estimate.bias(), REFERENCE_DIGITS);
        assertEquals(38.765129873607, estimate.sd(), REFERENCE_DIGITS);
        assertEquals(-78.0973016111, estimate.lower(), REFERENCE_DIGITS);
        assertEquals(73.8620074934, estimate.upper(), REFERENCE_DIGITS);
    }

    @Test
    void keepsItsDigitsUnderALargeBias() {
        // By hand: differences 1e9 + (0, 1, 2): mean 1e9 + 1, SD sqrt((1 + 0 + 1) / 2) = 1.
        LimitsOfAgreement.Estimate estimate =
                estimate(LimitsOfAgreement.ofDifferences(new double[] {1e9, 1e9 + 1, 1e9 + 2}));
        assertEquals(1e9 + 1, estimate.bias());
        assertEquals(1, estimate.sd());
    }

    @Test
    void narrowsToTheBiasForConstantDifferences() {
        LimitsOfAgreement.Estimate estimate =
                estimate(LimitsOfAgreement.ofDifferences(new double[] {0.25, 0.25, 0.25}));
        // By hand: no scatter, so both limits are the mean.
        assertEquals(0.25, estimate.lower());
        assertEquals(0.25, estimate.upper());
    }

    @Test
    void saysWhyThereIsNoEstimateForFewerThanTwo() {
        assertInstanceOf(LimitsOfAgreement.NotEstimable.class, LimitsOfAgreement.ofDifferences(new double[0]));
        LimitsOfAgreement.NotEstimable one = assertInstanceOf(
                LimitsOfAgreement.NotEstimable.class, LimitsOfAgreement.ofDifferences(new double[] {1}));
        assertTrue(one.reason().contains("got 1"), one::reason);
    }

    @Test
    void refusesWhatIsNoNumberAndPairsThatAreNone() {
        assertThrows(
                IllegalArgumentException.class, () -> LimitsOfAgreement.ofDifferences(new double[] {1, Double.NaN}));
        assertThrows(
                IllegalArgumentException.class,
                () -> LimitsOfAgreement.ofDifferences(new double[] {Double.POSITIVE_INFINITY, 1}));
        assertThrows(IllegalArgumentException.class, () -> LimitsOfAgreement.ofPairs(new double[2], new double[3]));
    }

    @Property(seed = "20260101")
    void mirrorsWhenTheTwoMethodsAreSwapped(
            @ForAll @Size(min = 2, max = 50) List<@DoubleRange(min = -1e3, max = 1e3) Double> values) {
        double[] first = values.stream().mapToDouble(Double::doubleValue).toArray();
        double[] second = new double[first.length];
        LimitsOfAgreement.Estimate one = estimate(LimitsOfAgreement.ofPairs(first, second));
        LimitsOfAgreement.Estimate other = estimate(LimitsOfAgreement.ofPairs(second, first));
        assertEquals(one.lower(), -other.upper(), REFERENCE_DIGITS);
        assertEquals(one.upper(), -other.lower(), REFERENCE_DIGITS);
    }

    private static LimitsOfAgreement.Estimate estimate(LimitsOfAgreement limits) {
        return assertInstanceOf(LimitsOfAgreement.Estimate.class, limits);
    }

    private static double[] pressures(String column) throws IOException {
        CSVFormat format = CSVFormat.DEFAULT
                .builder()
                .setCommentMarker('#')
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (Reader reader = new InputStreamReader(
                LimitsOfAgreementTest.class.getResourceAsStream("bland-altman-1999-systolic-pressure.csv"),
                StandardCharsets.UTF_8)) {
            List<CSVRecord> records = format.parse(reader).getRecords();
            return records.stream()
                    .mapToDouble(record -> Double.parseDouble(record.get(column)))
                    .toArray();
        }
    }
}
