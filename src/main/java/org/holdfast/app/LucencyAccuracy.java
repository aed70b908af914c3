package org.holdfast.app;

import java.util.Locale;
import org.holdfast.statistics.WilsonInterval;

/**
 * How far a lucent zone on images tells whether a screw is loose, from published counts.
 *
 * <p>Source: Wu et al., J Orthop Surg Res 2019;14:6: zones on radiographs against the screw's hold at operation, 17 of 70
 * loose screws with a zone, 153 of 156 firm screws without one. The intervals take screws for independent, which those
 * of one patient are not.
 *
 * @param sensitivity share of loose screws that show a zone
 * @param specificity share of firm screws that show none
 */
public record LucencyAccuracy(WilsonInterval sensitivity, WilsonInterval specificity) {

    /** The published counts. */
    public static final LucencyAccuracy PUBLISHED =
            new LucencyAccuracy(new WilsonInterval(17, 70), new WilsonInterval(153, 156));

    /** Printed with every result. */
    public String words() {
        return String.format(
                Locale.ROOT,
                "absence of a zone does not exclude loosening: a zone was seen in %d of %d loose screws (%.1f %%, 95 %% interval"
                        + " %.1f to %.1f %%) and in %d of %d firm ones (Wu et al., J Orthop Surg Res 2019;14:6)",
                sensitivity.hits(),
                sensitivity.n(),
                100 * sensitivity.share(),
                100 * sensitivity.lower(),
                100 * sensitivity.upper(),
                specificity.n() - specificity.hits(),
                specificity.n());
    }
}
